//go:build !js

package page

import (
	"context"
	"errors"
	"fmt"
	"io"
	"net"
	"net/http"
	"time"
)

// Address is where the page is served unless told otherwise: this machine only.
const Address = "127.0.0.1:8080"

// Limits of a request. Chosen: generous for a browser on the same machine, small enough that a stuck client is let go.
const (
	headerTime = 5 * time.Second
	readTime   = 10 * time.Second
	writeTime  = 60 * time.Second
	idleTime   = 60 * time.Second
	headerSize = 16 << 10
	mostAtOnce = 64 // requests; more wait their turn until headerTime is over
)

// NewServer returns a server with limits on time and size.
func NewServer(h http.Handler) *http.Server {
	return &http.Server{Handler: crowd(h), ReadHeaderTimeout: headerTime, ReadTimeout: readTime, WriteTimeout: writeTime,
		IdleTimeout: idleTime, MaxHeaderBytes: headerSize}
}

// crowd lets at most mostAtOnce requests be answered at the same time.
func crowd(h http.Handler) http.Handler {
	places := make(chan struct{}, mostAtOnce)
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		t := time.NewTimer(headerTime)
		defer t.Stop()
		select {
		case places <- struct{}{}:
			defer func() { <-places }()
			h.ServeHTTP(w, r)
		case <-t.C:
			http.Error(w, "too many requests at once", http.StatusServiceUnavailable)
		case <-r.Context().Done():
		}
	})
}

// Serve answers at addr until ctx is done, and tells log where.
func Serve(ctx context.Context, addr string, h http.Handler, log io.Writer) error {
	l, err := net.Listen("tcp", addr)
	if err != nil {
		return fmt.Errorf("cannot listen at %s: %w; choose another with --addr (port 0 takes a free one)", addr, err)
	}
	at := l.Addr().(*net.TCPAddr)
	fmt.Fprintf(log, "Annuloscope is at http://%s/ (stop with Ctrl+C)\n", at)
	if !at.IP.IsLoopback() {
		fmt.Fprintln(log, "Attention: this address can be reached from other machines.")
	}
	s := NewServer(h)
	failed := make(chan error, 1)
	go func() { failed <- s.Serve(l) }()
	select {
	case err := <-failed:
		return err
	case <-ctx.Done():
	}
	end, cancel := context.WithTimeout(context.Background(), 2*time.Second)
	defer cancel()
	if err := s.Shutdown(end); err != nil {
		err = errors.Join(err, s.Close())
		return err
	}
	return nil
}
