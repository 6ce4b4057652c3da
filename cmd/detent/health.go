package main

import (
	"context"
	"fmt"
	"net"
	"net/http"
	"time"
)

// healthCmd asks a running program how it is, for whatever supervises it.
type healthCmd struct {
	Listen string `name:"listen" env:"DETENT_LISTEN" default:"127.0.0.1:8650" help:"Where health and metrics are served."`
}

// Run returns an error when the program is not well.
func (h *healthCmd) Run(ctx context.Context) error {
	ctx, cancel := context.WithTimeout(ctx, 5*time.Second)
	defer cancel()
	host, port, err := net.SplitHostPort(h.Listen)
	if err != nil {
		return usageError{fmt.Errorf("DETENT_LISTEN is no address: %w", err)}
	}
	if ip := net.ParseIP(host); host == "" || ip != nil && ip.IsUnspecified() { // it listens on every address, this one too
		host = "127.0.0.1"
	}
	request, err := http.NewRequestWithContext(ctx, http.MethodGet, "http://"+net.JoinHostPort(host, port)+"/healthz", nil)
	if err != nil {
		return err
	}
	response, err := http.DefaultClient.Do(request)
	if err != nil {
		return fmt.Errorf("it does not answer: %w", err)
	}
	defer response.Body.Close()
	if response.StatusCode != http.StatusOK {
		return fmt.Errorf("it is not well: %s", response.Status)
	}
	return nil
}
