package live

import (
	"net"
	"net/http"
	"net/netip"
	"net/url"
	"os"
	"strings"
)

// policy lets a page load from this server alone; frames of other pages may not
// show it.
const policy = "default-src 'self'; base-uri 'none'; form-action 'self'; frame-ancestors 'none'; object-src 'none'"

// guarded puts the headers on every answer and lets only those requests through
// that a reader of the book would make. See the package comment.
func guarded(next http.Handler, allowed func(host string) bool) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		h := w.Header()
		h.Set("Content-Security-Policy", policy)
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("Cross-Origin-Resource-Policy", "same-origin")
		h.Set("Referrer-Policy", "same-origin")
		h.Set("Cache-Control", "no-store")
		if r.ContentLength != 0 {
			h.Set("Connection", "close") // nobody waits for a body that nothing here reads
		}
		switch {
		case !allowed(r.Host):
			http.Error(w, "This server does not answer to that name.", http.StatusMisdirectedRequest)
		case fromElsewhere(r):
			http.Error(w, "Only the book's own pages may ask for this.", http.StatusForbidden)
		case r.Method != http.MethodGet && r.Method != http.MethodHead:
			h.Set("Allow", "GET, HEAD")
			http.Error(w, "The book can be read here, not written.", http.StatusMethodNotAllowed)
		default:
			next.ServeHTTP(w, r)
		}
	})
}

// fromElsewhere tells whether another site's page made the request. Following a
// link to the book is no harm.
func fromElsewhere(r *http.Request) bool {
	if origin := r.Header.Get("Origin"); origin != "" {
		u, err := url.Parse(origin)
		return err != nil || !strings.EqualFold(u.Host, r.Host)
	}
	site := r.Header.Get("Sec-Fetch-Site")
	return (site == "cross-site" || site == "same-site") && r.Header.Get("Sec-Fetch-Mode") != "navigate"
}

// allowedHosts tells which Host headers are this server's own: on loopback the
// machine's names for itself; else any bare address too (a page on the web that
// attacks by name cannot have one), the name it was told to listen on, and the
// machine's name.
func allowedHosts(address string, loopback bool) func(string) bool {
	names := []string{"localhost"}
	if !loopback {
		names = append(names, hostOf(address))
		if name, err := os.Hostname(); err == nil {
			names = append(names, name, name+".local")
		}
	}
	return func(header string) bool {
		host := hostOf(header)
		if ip, err := netip.ParseAddr(host); err == nil {
			return !loopback || ip.IsLoopback()
		}
		for _, name := range names {
			if host != "" && strings.EqualFold(host, name) {
				return true
			}
		}
		return false
	}
}

// hostOf is a host without its port and without the brackets of IPv6.
func hostOf(address string) string {
	if host, _, err := net.SplitHostPort(address); err == nil {
		return host
	}
	return strings.Trim(address, "[]")
}
