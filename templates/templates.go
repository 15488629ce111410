// Package templates holds the site's built-in HTML templates, its stylesheet and
// its script. What the templates are given is documented in gylebook/internal/site,
// for each page by the struct that names its template, and in its package view.
//
// Each page is one file, which defines "main"; base.html is around it, and
// parts/ holds what several pages share.
package templates

import "embed"

// Files are all of them.
//
//go:embed *.html *.css *.js *.svg parts/*.html
var Files embed.FS
