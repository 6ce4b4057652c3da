package localpg

import "time"

// Hasty gives a server that does not stop, or says nothing, little time.
func Hasty() Option {
	return func(c *cluster) {
		c.waits = waits{fast: time.Second, immediate: time.Second, killed: 5 * time.Second, stuck: time.Second, silent: time.Second, answer: time.Second}
	}
}
