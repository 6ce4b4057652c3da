package discordtest

import (
	"testing"
	"time"

	"github.com/bwmarrin/discordgo"
)

// TestStartsComeBack sees the starts told, spent and given back.
func TestStartsComeBack(t *testing.T) {
	t.Parallel()
	p := New(t)
	p.Gateway.LeaveStarts(1, time.Hour)
	p.Gateway.RecommendShards(4)
	b := newBot(t, p)
	told := func() discordgo.SessionInformation {
		got, err := b.GatewayBot()
		if err != nil || got.Shards != 4 {
			t.Errorf("%+v, %v", got, err)
		}
		return got.SessionStartLimit
	}
	if got := told(); got.Remaining != 1 || got.ResetAfter < 3_590_000 || got.ResetAfter > 3_600_000 {
		t.Errorf("one is left: %+v", got)
	}
	b.open()
	if got := told(); got.Remaining != 0 {
		t.Errorf("it is spent: %+v", got)
	}
	p.Advance(time.Hour)
	if got := told(); got.Remaining != got.Total {
		t.Errorf("they are back: %+v", got)
	}
}
