package live

import (
	"context"
	"fmt"
	"io/fs"
	"net"
	"net/http"
	"path/filepath"
	"time"
)

// Options is what Serve needs to know.
type Options struct {
	Journal      string           // the journal's folder
	Address      string           // where to listen, as 127.0.0.1:4380
	Templates    fs.FS            // replaces built-in templates; nil for none
	TemplatesDir string           // the folder of Templates, watched too; "" for none
	Version      string           // the program's, for the site
	Now          func() time.Time // the clock

	// Started is told once where the book can be read, as http://127.0.0.1:4380/,
	// and whether only from this machine.
	Started func(address string, loopback bool)
	// Report is told of each build, the first one included, one at a time.
	Report func(Rebuild)
}

// Serve builds the site and serves it, rebuilding at every save, until ctx ends;
// then it stops at once and returns nil. It fails where it cannot listen, where
// the folder cannot be watched and where the first build fails; a later build
// that fails leaves the last good one standing and is reported.
func Serve(ctx context.Context, o Options) error {
	listener, err := net.Listen("tcp", o.Address)
	if err != nil {
		return fmt.Errorf("listening: %w", err)
	}
	defer listener.Close()
	if o.Journal, err = filepath.EvalSymlinks(o.Journal); err != nil {
		return fmt.Errorf("finding the journal: %w", err)
	}
	w, err := watch(folders(o))
	if err != nil {
		return fmt.Errorf("watching %s: %w", o.Journal, err)
	}
	defer w.close()
	d := &desk{options: o, begun: time.Now(), news: newNews(), photos: newAlbum()}
	if err := d.rebuild(nil); err != nil {
		return err
	}
	return d.serve(ctx, listener, w)
}

func folders(o Options) []string {
	if o.TemplatesDir == "" {
		return []string{o.Journal}
	}
	return []string{o.Journal, o.TemplatesDir}
}

// serve answers requests and rebuilds at saves until ctx ends.
func (d *desk) serve(ctx context.Context, listener net.Listener, w *watcher) error {
	ctx, stop := context.WithCancel(ctx)
	defer stop()
	loopback := isLoopback(listener.Addr())
	server := &http.Server{
		Handler:           guarded(d, allowedHosts(d.options.Address, loopback)),
		BaseContext:       func(net.Listener) context.Context { return ctx },
		ReadHeaderTimeout: 10 * time.Second,
		MaxHeaderBytes:    1 << 16,
	}
	served := make(chan error, 1)
	go func() { served <- server.Serve(listener) }()
	saves := make(chan []string)
	go w.run(ctx, saves)
	d.options.Started("http://"+listener.Addr().String()+"/", loopback)
	for {
		select {
		case <-ctx.Done():
			server.Close() // not Shutdown: open pages hold their streams for ever
			return nil
		case err := <-served:
			return fmt.Errorf("serving %s: %w", listener.Addr(), err)
		case names := <-saves:
			d.rebuild(d.relative(names)) // reported; the last good build stands
		}
	}
}

func isLoopback(addr net.Addr) bool {
	tcp, ok := addr.(*net.TCPAddr)
	return ok && tcp.IP.IsLoopback()
}
