package live

import (
	"context"
	"fmt"
	"io/fs"
	"net"
	"net/http"
	"path/filepath"
	"sync"
	"time"

	"golang.org/x/net/netutil"

	"gylebook/internal/store"
)

// Options is what Serve needs to know.
type Options struct {
	Journal      string           // the journal's folder
	Address      string           // where to listen, as 127.0.0.1:4380
	Templates    fs.FS            // replaces built-in templates; nil for none
	TemplatesDir string           // the folder of Templates, watched too; "" for none
	Version      string           // the program's, for the site
	Now          func() time.Time // the clock

	// Warned is told, once, when the system will not watch the folder.
	Warned func(says string)
	// Started is told once where the book can be read, as http://127.0.0.1:4380/,
	// and whether only from this machine.
	Started func(address string, loopback bool)
	// Report is told of each build, the first one included, one at a time.
	Report func(Rebuild)

	limit func(folder string) error // refuses watches, in tests
}

// mostConnections bounds how many are open at once: all streams there may be, and some
// for pages besides.
const mostConnections = mostReaders + 512

// pictureLimit is how many bytes of made pictures are kept: some hundreds of them.
const pictureLimit = 64 << 20

// Serve builds the site and serves it, rebuilding at every save, until ctx ends;
// then it stops at once and returns nil. It fails where it cannot listen, where
// the first build fails; a later build
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
	w := watch(folders(o), o.limit)
	defer w.close()
	d := &bookServer{
		options: o, news: newNews(), outcomes: make(chan buildOutcome, 1000),
		kept: store.New(store.NewAlbum(pictureLimit)),
	}
	if err := d.open(ctx); err != nil {
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
func (s *bookServer) serve(ctx context.Context, listener net.Listener, w *watcher) error {
	ctx, stop := context.WithCancel(ctx)
	defer stop()
	loopback := isLoopback(listener.Addr())
	server := &http.Server{
		Handler:           guarded(s, allowedHosts(s.options.Address, loopback)),
		BaseContext:       func(net.Listener) context.Context { return ctx },
		ReadHeaderTimeout: 10 * time.Second,
		WriteTimeout:      time.Minute, // a stream sets its own each time it writes
		IdleTimeout:       2 * time.Minute,
		MaxHeaderBytes:    1 << 16,
	}
	served := make(chan error, 1)
	go func() { served <- server.Serve(netutil.LimitListener(listener, mostConnections)) }()
	saves := make(chan []string)
	var others sync.WaitGroup
	others.Go(func() { w.run(ctx, saves, s.options.Warned) })
	go s.reporting(ctx) // not waited for: to find out what is new may take a while
	defer others.Wait()
	defer stop()
	s.options.Started("http://"+listener.Addr().String()+"/", loopback)
	for {
		again := time.NewTimer(s.wait())
		select {
		case <-ctx.Done():
			server.Close() // not Shutdown: open pages hold their streams for ever
			return nil
		case err := <-served:
			return fmt.Errorf("serving %s: %w", listener.Addr(), err)
		case names := <-saves:
			s.rebuild(names) // reported; the last good build stands
		case <-again.C:
			s.rebuild(nil)
		}
		again.Stop()
	}
}

// wait is how long nothing needs to be looked at unless something is saved: until
// a doubted file is certain, until midnight, and never longer than a minute, since
// a machine that slept has other ideas of an hour.
func (s *bookServer) wait() time.Duration {
	wait := time.Minute
	if next := s.folder.nextLook(); !next.IsZero() {
		wait = min(wait, time.Until(next))
	}
	now := s.options.Now().In(s.last.Load().book.Now.Location())
	midnight := time.Date(now.Year(), now.Month(), now.Day()+1, 0, 0, 0, 0, now.Location())
	return max(time.Millisecond, min(wait, midnight.Sub(now)))
}

func isLoopback(addr net.Addr) bool {
	tcp, ok := addr.(*net.TCPAddr)
	return ok && tcp.IP.IsLoopback()
}
