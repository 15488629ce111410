package site

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"strings"
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

// sitemap lists the pages for search engines. Cards and labels are for paper.
func (s *Site) sitemap() ([]byte, error) {
	var set sitemapSet
	redirects := map[string]bool{}
	for _, p := range s.redirectPages() {
		redirects[p.Path] = true
	}
	for _, p := range s.Pages() {
		if strings.HasSuffix(p.Path, "index.html") && !redirects[p.Path] && !strings.HasSuffix(p.Path, "copper-card/index.html") && !strings.HasSuffix(p.Path, "labels/index.html") && len(set.URLs) < mostMapped {
			set.URLs = append(set.URLs, sitemapURL{s.public(p.Path)})
		}
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

func (s *Site) robots() ([]byte, error) {
	text := "User-agent: *\nAllow: /\n"
	if s.address() != "" {
		text += "Sitemap: " + s.address() + "sitemap.xml\n"
	}
	return []byte(text), nil
}
