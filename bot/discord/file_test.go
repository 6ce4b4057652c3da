package discord

import (
	"context"
	"strings"
	"testing"
	"time"

	"detent/bot"
	"detent/bot/discord/discordtest"
	"detent/tuning"
)

// TestFiles sends files with a command, good ones and others; only what is the
// platform's, of a fitting kind and small enough is fetched at all.
func TestFiles(t *testing.T) {
	t.Parallel()
	table := []byte("click,speed_mm_s,bump_n,rebound_n\n")
	for name, test := range map[string]struct {
		file    discordtest.File
		want    string // what the member reads, "" when it arrives
		fetched int
	}{
		"a table":            {discordtest.FileNamed("front.csv", table), "", 1},
		"a text":             {discordtest.FileNamed("FRONT.TXT", table), "", 1},
		"of no kind":         {discordtest.File{Name: "front.csv", Data: table}, "", 1},
		"a picture":          {discordtest.FileNamed("front.png", table), "not a table", 0},
		"a picture by kind":  {discordtest.File{Name: "front.csv", Type: "image/png", Data: table}, "not a table", 0},
		"nonsense for kind":  {discordtest.File{Name: "front.csv", Type: ";;", Data: table}, "not a table", 0},
		"too large":          {discordtest.File{Name: "front.csv", Data: table, Size: tuning.MaxTableBytes + 1}, "too large", 0},
		"of another host":    {discordtest.File{Name: "front.csv", Data: table, URL: "https://example.org/front.csv"}, "from the workspace only", 0},
		"of a near host":     {discordtest.File{Name: "front.csv", Data: table, URL: "https://cdn.discordapp.com.example.org/f.csv"}, "from the workspace only", 0},
		"without encryption": {discordtest.File{Name: "front.csv", Data: table, URL: "http://cdn.discordapp.com/f.csv"}, "from the workspace only", 0},
		"gone":               {discordtest.File{Name: "front.csv", Data: table, URL: "https://cdn.discordapp.com/attachments/1/2/f.csv"}, "could not get that file", 1},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			w := newAdapterClub(t).register().post()
			got := w.alice.Type("/damper curve axle:front file:"+test.file.Name, test.file).Content()
			switch {
			case test.want != "" && !strings.Contains(got, test.want):
				t.Errorf("answered %q", got)
			case test.want == "" && (len(w.asks()) != 1 || w.asks()[0].Files["file"] != string(table)):
				t.Errorf("it did not arrive: %q", got)
			}
			if n := len(w.Requests(discordtest.GetFile)); n != test.fetched {
				t.Errorf("fetched %d times, want %d", n, test.fetched)
			}
		})
	}
}

// TestFileThatLies says that it is small and is not: no more of it is read than
// shows that it is too large.
func TestFileThatLies(t *testing.T) {
	t.Parallel()
	w := newAdapterClub(t).register().post()
	big := discordtest.File{Name: "front.csv", Size: 100, Data: make([]byte, 5*tuning.MaxTableBytes)}
	w.alice.Type("/damper curve axle:front file:front.csv", big)
	if got := len(w.asks()[0].Files["file"]); got != tuning.MaxTableBytes+1 {
		t.Errorf("%d bytes are read", got)
	}
}

// TestFileHostThatHangs is announced in time and given up.
func TestFileHostThatHangs(t *testing.T) {
	t.Parallel()
	w := newAdapterClub(t).register().join()
	w.bot.pace.deferral, w.bot.files.within = time.Millisecond, 50*time.Millisecond
	w.Break(discordtest.GetFile, discordtest.Hang())
	w.answer = func(context.Context, bot.Ask) bot.Reply { t.Error("asked without the file"); return bot.Reply{} }
	got := w.alice.Type("/damper curve axle:front file:front.csv", discordtest.FileNamed("front.csv", []byte("click")))
	if !strings.Contains(got.Content(), "could not get that file") {
		t.Errorf("answered %q", got.Content())
	}
}
