package gateway

import (
	"testing"
	"time"
)

func TestTurns(t *testing.T) {
	t.Parallel()
	const span = 5 * time.Second
	begin := time.Unix(0, 0).Add(1_000_000 * 60 * time.Second) // a round of every size below begins here
	for _, test := range []struct {
		after                      time.Duration
		shard, shards, concurrency int
		want                       time.Duration
	}{
		{0, 0, 1, 1, 0},
		{3 * time.Second, 0, 1, 1, 0},
		{0, 0, 3, 1, 0},
		{0, 2, 3, 1, 10 * time.Second},
		{4 * time.Second, 1, 3, 1, time.Second},
		{6 * time.Second, 1, 3, 1, 14 * time.Second}, // its turn has begun: the next one
		{2 * time.Second, 3, 4, 2, 3 * time.Second},  // the second of its bucket
		{2 * time.Second, 3, 4, 16, 0},               // alone in its bucket
	} {
		if got := turnIn(begin.Add(test.after), test.shard, test.shards, test.concurrency, span); got != test.want {
			t.Errorf("shard %d of %d, %d at once, %v into the round: %v, want %v",
				test.shard, test.shards, test.concurrency, test.after, got, test.want)
		}
	}
	for shard := range 12 { // no two shards of a bucket come together, whenever they begin
		for other := range shard {
			one := begin.Add(time.Second + turnIn(begin.Add(time.Second), shard, 12, 2, span))
			two := begin.Add(17*time.Second + turnIn(begin.Add(17*time.Second), other, 12, 2, span))
			if shard%2 == other%2 && one.Sub(two).Abs() < span {
				t.Errorf("shards %d and %d identify %v apart", shard, other, one.Sub(two))
			}
		}
	}
}
