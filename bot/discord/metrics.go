package discord

import (
	"context"
	"math"
	"net/http"
	"time"

	"github.com/prometheus/client_golang/prometheus"
	"github.com/prometheus/client_golang/prometheus/collectors"
	"github.com/prometheus/client_golang/prometheus/promhttp"
)

// Metrics count what passes through the door.
type Metrics struct {
	registry *prometheus.Registry
	requests *prometheus.CounterVec
	wait     prometheus.Histogram
	failures *prometheus.CounterVec
	retries  *prometheus.CounterVec
	joins    prometheus.Counter
	faults   *prometheus.CounterVec
}

// NewMetrics returns the counters, all at nothing.
func NewMetrics() *Metrics {
	m := &Metrics{
		registry: prometheus.NewRegistry(),
		requests: prometheus.NewCounterVec(prometheus.CounterOpts{
			Name: "detent_requests_total", Help: "What people asked, by command and what came of it."}, []string{"command", "outcome"}),
		wait: prometheus.NewHistogram(prometheus.HistogramOpts{
			Name: "detent_first_answer_seconds", Help: "From the arrival of an interaction to its first answer.",
			Buckets: []float64{.01, .025, .05, .1, .25, .5, 1, 1.5, 2, 3}}),
		failures: prometheus.NewCounterVec(prometheus.CounterOpts{
			Name: "detent_send_failures_total", Help: "What could not be sent, by what it was."}, []string{"what"}),
		retries: prometheus.NewCounterVec(prometheus.CounterOpts{
			Name: "detent_send_retries_total", Help: "Requests of the platform that were made again."}, []string{"method"}),
		joins: prometheus.NewCounter(prometheus.CounterOpts{
			Name: "detent_gateway_joins_total", Help: "Times the gateway was joined."}),
		faults: prometheus.NewCounterVec(prometheus.CounterOpts{
			Name: "detent_gateway_faults_total", Help: "Messages of the gateway that could not be handled, by event."}, []string{"event"}),
	}
	m.registry.MustRegister(m.requests, m.wait, m.failures, m.retries, m.joins, m.faults,
		collectors.NewGoCollector(), collectors.NewProcessCollector(collectors.ProcessCollectorOpts{}))
	return m
}

// Due shows how many messages are due and not yet sent. The figure is left out
// while it cannot be counted.
func (m *Metrics) Due(count func(context.Context) (int, error)) {
	m.registry.MustRegister(prometheus.NewGaugeFunc(prometheus.GaugeOpts{
		Name: "detent_due_messages", Help: "Messages that are due and not yet sent."}, func() float64 {
		ctx, cancel := context.WithTimeout(context.Background(), 2*time.Second)
		defer cancel()
		n, err := count(ctx)
		if err != nil {
			return math.NaN()
		}
		return float64(n)
	}))
}

// Handler serves the metrics in the standard exposition format.
func (m *Metrics) Handler() http.Handler {
	return promhttp.HandlerFor(m.registry, promhttp.HandlerOpts{})
}

func (m *Metrics) count(command, outcome string) { m.requests.WithLabelValues(command, outcome).Inc() }
func (m *Metrics) waited(d time.Duration)        { m.wait.Observe(d.Seconds()) }
func (m *Metrics) failed(what string)            { m.failures.WithLabelValues(what).Inc() }
func (m *Metrics) broken(event string)           { m.faults.WithLabelValues(event).Inc() }
func (m *Metrics) retried(method string)         { m.retries.WithLabelValues(method).Inc() }
