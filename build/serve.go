package main

import (
	"errors"
	"fmt"
	"net"
	"net/http"
	"regexp"
	"syscall"
	"time"
)

// serve builds and then serves dist on a loopback address until it is interrupted.
func serve(root, dist, addr string) error {
	if err := makeDist(root, dist); err != nil {
		return err
	}
	listener, err := listen(addr)
	if err != nil {
		return err
	}
	fmt.Printf("Springrib is at http://%s/ (Ctrl-C ends it)\n", listener.Addr())
	server := http.Server{Handler: handler(dist), ReadHeaderTimeout: 10 * time.Second}
	return server.Serve(listener)
}

// listen opens addr, or a free port of the same host when it is taken.
func listen(addr string) (net.Listener, error) {
	host, _, err := net.SplitHostPort(addr)
	if err != nil {
		return nil, fmt.Errorf("-addr wants host:port, as 127.0.0.1:8377: %w", err)
	}
	if ip := net.ParseIP(host); host != "localhost" && (ip == nil || !ip.IsLoopback()) {
		return nil, fmt.Errorf("%s is not a loopback address; to serve others, put dist/ on any static server", host)
	}
	listener, err := net.Listen("tcp", addr)
	if errors.Is(err, syscall.EADDRINUSE) {
		return net.Listen("tcp", net.JoinHostPort(host, "0"))
	}
	return listener, err
}

// hashed is a name that holds the hash of its content and so never changes.
var hashed = regexp.MustCompile(`-[0-9a-f]{16}\.`)

// handler serves dist with the headers that a careful server would send.
func handler(dist string) http.Handler {
	files := http.FileServer(http.Dir(dist))
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		h := w.Header()
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("Referrer-Policy", "no-referrer")
		if hashed.MatchString(r.URL.Path) {
			h.Set("Cache-Control", "public, max-age=31536000, immutable")
			h.Set("Access-Control-Allow-Origin", "*") // pages of other origins embed designs
		} else {
			h.Set("Cache-Control", "no-cache")
		}
		if r.URL.Path == "/" {
			h.Set("Content-Security-Policy", servedPolicy)
		}
		files.ServeHTTP(w, r)
	})
}
