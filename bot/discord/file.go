package discord

import (
	"context"
	"errors"
	"fmt"
	"io"
	"mime"
	"net/http"
	"net/url"
	"path"
	"slices"
	"strings"
	"time"

	"github.com/bwmarrin/discordgo"

	"detent/bot"
	"detent/bot/discord/rest"
	"detent/tuning"
)

// fetcher gets the files that people send with a command.
type fetcher struct {
	http   *http.Client
	within time.Duration
}

const (
	fetchWithin = 10 * time.Second
	maxFile     = 10 << 20 // the platform's own limit
)

// fileHosts are the platform's own; nothing is fetched from anywhere else.
var fileHosts = []string{"cdn.discordapp.com", "media.discordapp.net"}

// fileKinds are the media types that a table may have, and those that say
// nothing.
var fileKinds = []string{"text/csv", "text/plain", "application/csv", "application/vnd.ms-excel", "application/octet-stream", ""}

func newFetcher(transport http.RoundTripper) *fetcher {
	elsewhere := func(*http.Request, []*http.Request) error { return errors.New("the file host sends us elsewhere") }
	return &fetcher{http: &http.Client{Transport: transport, CheckRedirect: elsewhere}, within: fetchWithin}
}

// fetch returns what is in a file. Its size and kind are checked before
// anything is asked for, and the size again while it comes.
func (f *fetcher) fetch(ctx context.Context, a *discordgo.MessageAttachment) (string, error) {
	if a == nil {
		return "", bot.Problemf(tuning.Invalid, "The file did not arrive: send it again with the command.")
	}
	kind, _, err := mime.ParseMediaType(a.ContentType)
	if err != nil && a.ContentType != "" {
		kind = "unreadable"
	}
	ext := strings.ToLower(path.Ext(a.Filename))
	switch {
	case a.Size > maxFile || a.Size > tuning.MaxTableBytes:
		return "", bot.Problemf(tuning.Limit, "That file is too large: a table has at most %d KiB.", tuning.MaxTableBytes>>10)
	case !slices.Contains(fileKinds, kind) || ext != ".csv" && ext != ".txt":
		return "", bot.Problemf(tuning.Invalid, "That is not a table: send it as a .csv file, which a spreadsheet can write.")
	}
	where, err := url.Parse(a.URL)
	if err != nil || where.Scheme != "https" || !slices.Contains(fileHosts, where.Host) {
		return "", bot.Problemf(tuning.Forbidden, "I take files from the workspace only: send it with the command.")
	}
	return f.get(ctx, where)
}

func (f *fetcher) get(ctx context.Context, where *url.URL) (string, error) {
	ctx, cancel := context.WithTimeout(ctx, f.within)
	defer cancel()
	lost := func(err error) error {
		return &bot.Problem{Kind: tuning.NotFound, Say: "I could not get that file from the workspace: send it again with the command.", Err: rest.WithoutAddress(err)}
	}
	request, err := http.NewRequestWithContext(ctx, http.MethodGet, where.String(), nil)
	if err != nil {
		return "", lost(err)
	}
	response, err := f.http.Do(request)
	if err != nil {
		return "", lost(err)
	}
	defer response.Body.Close()
	if response.StatusCode != http.StatusOK {
		return "", lost(fmt.Errorf("the file host answered %d", response.StatusCode))
	}
	content, err := io.ReadAll(io.LimitReader(response.Body, tuning.MaxTableBytes+1))
	if err != nil {
		return "", lost(err)
	}
	return string(content), nil // one byte too many is refused where tables are read
}
