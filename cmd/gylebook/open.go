package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"time"

	"gylebook/internal/journal"
)

// opened is a journal as read, with where it is.
type opened struct {
	*journal.Journal
	dir   string // as it was named or found
	files fs.FS
}

// open reads the journal in dir. Nothing outside that folder is read.
func (c *call) open(dir string) (*opened, error) {
	files, err := journal.RootUntil(c.ctx, dir)
	if err != nil {
		return nil, fmt.Errorf("opening the journal: %w", err)
	}
	read := journal.Read(files, journal.Options{})
	if c.ctx.Err() != nil {
		return nil, errors.New("reading the journal: interrupted")
	}
	return &opened{Journal: read, dir: dir, files: files}, nil
}

// zone is the journal's time zone.
func (o *opened) zone() *time.Location {
	if o.Settings.Zone == nil {
		return time.UTC
	}
	return o.Settings.Zone
}

// shown is a file of the journal as somebody in the working folder names it.
func (o *opened) shown(file string) string {
	full, err := filepath.Abs(filepath.Join(o.dir, filepath.FromSlash(file)))
	if err != nil {
		return file
	}
	here, err := os.Getwd()
	if err != nil {
		return full
	}
	if short, err := filepath.Rel(here, full); err == nil {
		return short
	}
	return full
}

// templates is the folder of templates to put in front of the built-in ones,
// nil where none was named.
func (c *call) templates() (fs.FS, error) {
	if c.Templates == "" {
		return nil, nil
	}
	files, err := journal.RootUntil(c.ctx, c.Templates)
	if err != nil {
		return nil, fmt.Errorf("opening the templates: %w", err)
	}
	return files, nil
}

// asWritten is an entry of the journal as these bytes have it, with the logger's
// file that it names.
func (o *opened) asWritten(file string, raw []byte) *journal.Document {
	d := journal.ReadFile(file, raw, o.Settings)
	d.ReadLogOf(o.files, o.Settings, nil)
	return d
}
