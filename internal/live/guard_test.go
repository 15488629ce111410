package live

import (
	"net/http"
	"net/http/httptest"
	"testing"
)

func TestWhoIsServed(t *testing.T) {
	here := allowedHosts("127.0.0.1:4380", true)
	wide := allowedHosts("brewhouse:4380", false)
	cases := []struct {
		what    string
		allowed func(string) bool
		method  string
		host    string
		headers map[string]string
		status  int
	}{
		{"the address itself", here, "GET", "127.0.0.1:4380", nil, 200},
		{"its name", here, "GET", "localhost:4380", nil, 200},
		{"its address of version 6", here, "GET", "[::1]:4380", nil, 200},
		{"a head", here, "HEAD", "127.0.0.1:4380", nil, 200},
		{"a forwarded port", here, "GET", "localhost:8080", nil, 200},
		{"a name that somebody points here", here, "GET", "evil.example:4380", nil, 421},
		{"another address", here, "GET", "192.0.2.7:4380", nil, 421},
		{"no host at all", here, "GET", "", nil, 421},
		{"the network's address, where it listens there", wide, "GET", "192.0.2.7:4380", nil, 200},
		{"the name it was told", wide, "GET", "brewhouse:4380", nil, 200},
		{"a name that somebody points there", wide, "GET", "evil.example:4380", nil, 421},
		{"its own script", here, "GET", "127.0.0.1:4380", map[string]string{"Origin": "http://127.0.0.1:4380"}, 200},
		{"another page's script", here, "GET", "127.0.0.1:4380", map[string]string{"Origin": "http://evil.example"}, 403},
		{"a page of another port", here, "GET", "127.0.0.1:4380", map[string]string{"Origin": "http://127.0.0.1:9999"}, 403},
		{"a page without an origin", here, "GET", "127.0.0.1:4380", map[string]string{"Origin": "null"}, 403},
		{"a link from elsewhere", here, "GET", "127.0.0.1:4380", map[string]string{"Sec-Fetch-Site": "cross-site", "Sec-Fetch-Mode": "navigate"}, 200},
		{"a picture in another page", here, "GET", "127.0.0.1:4380", map[string]string{"Sec-Fetch-Site": "cross-site", "Sec-Fetch-Mode": "no-cors"}, 403},
		{"a form", here, "POST", "127.0.0.1:4380", nil, 405},
	}
	for _, c := range cases {
		t.Run(c.what, func(t *testing.T) {
			reached := false
			handler := guarded(http.HandlerFunc(func(http.ResponseWriter, *http.Request) { reached = true }), c.allowed)
			request := httptest.NewRequest(c.method, "/gyles/", nil)
			request.Host = c.host
			for key, value := range c.headers {
				request.Header.Set(key, value)
			}
			answer := httptest.NewRecorder()
			handler.ServeHTTP(answer, request)
			if answer.Code != c.status || reached != (c.status == 200) {
				t.Errorf("answered %d (reached: %t), want %d", answer.Code, reached, c.status)
			}
			for _, header := range []string{"Content-Security-Policy", "X-Content-Type-Options", "Cache-Control"} {
				if answer.Header().Get(header) == "" {
					t.Errorf("no header %s", header)
				}
			}
		})
	}
}
