package site

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"slices"
)

type sitemapSet struct {
	XMLName xml.Name     `xml:"http://www.sitemaps.org/schemas/sitemap/0.9 urlset"`
	URLs    []sitemapURL `xml:"url"`
}

type sitemapURL struct {
	Address string `xml:"loc"`
}

// mostMapped is what the sitemap protocol allows in one file.
const mostMapped = 50000

var (
	_ = declare(filesOf[*Site]{path: "robots.txt", render: (*Site).robots})
	_ = declare(filesOf[*Site]{
		path: "sitemap.xml", each: where(func(s *Site) bool { return s.address() != "" }), render: (*Site).sitemap,
	})
)

// sitemap lists the pages for search engines. What is for paper only is left out.
func (s *Site) sitemap(string, *Site) ([]byte, error) {
	var paths []string
	for _, k := range declared {
		if k.unlisted {
			continue
		}
		for _, p := range k.pages(s, "") {
			paths = append(paths, p.Path)
		}
	}
	slices.Sort(paths)
	var set sitemapSet
	for _, path := range paths[:min(len(paths), mostMapped)] {
		set.URLs = append(set.URLs, sitemapURL{s.public(path)})
	}
	var b bytes.Buffer
	b.WriteString(xml.Header)
	encoder := xml.NewEncoder(&b)
	encoder.Indent("", " ")
	if err := encoder.Encode(set); err != nil {
		return nil, fmt.Errorf("writing the sitemap: %w", err)
	}
	b.WriteByte('\n')
	return b.Bytes(), nil
}

func (s *Site) robots(string, *Site) ([]byte, error) {
	text := "User-agent: *\nAllow: /\n"
	if s.address() != "" {
		text += "Sitemap: " + s.address() + "sitemap.xml\n"
	}
	return []byte(text), nil
}
