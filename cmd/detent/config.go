package main

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"detent/bot"
	"detent/migrations"
)

// Config is what every command takes from the environment. Each field's tag is
// its entry in the table of settings: name, default, meaning. What only serving
// needs stands in serveCmd in the same form.
type Config struct {
	DatabaseURL string `name:"database-url" env:"DETENT_DATABASE_URL" placeholder:"URL" help:"The Postgres that keeps the record. Without it a private one runs under the data folder."`
	Data        string `name:"data" env:"DETENT_DATA" placeholder:"DIR" help:"The folder for the private Postgres and for pictures. By default detent in the user's data folder."`
}

// dataFolder is where the program keeps its own files.
func (c *Config) dataFolder() (string, error) {
	if c.Data != "" {
		return filepath.Abs(c.Data)
	}
	if dir := os.Getenv("XDG_DATA_HOME"); filepath.IsAbs(dir) {
		return filepath.Join(dir, "detent"), nil
	}
	home, err := os.UserHomeDir()
	if err != nil {
		return "", usageError{errors.New("no home folder is known: set DETENT_DATA to a folder of your own")}
	}
	return filepath.Join(home, ".local", "share", "detent"), nil
}

// sentence words an error for whoever runs the program: a refusal by its
// sentence, if it has one.
func sentence(err error) string {
	if d, ok := errors.AsType[*migrations.Differs](err); ok {
		return sayDiffers(d)
	}
	if p, ok := bot.OperatorProblemOf(err); ok {
		return p.Say
	}
	return err.Error()
}

// sayDiffers names the first differences of a schema that the program cannot work
// with.
func sayDiffers(d *migrations.Differs) string {
	const most = 3
	first := strings.Join(d.Differences[:min(most, len(d.Differences))], "; ")
	if more := len(d.Differences) - most; more > 0 {
		first += fmt.Sprintf("; and %d more", more)
	}
	return fmt.Sprintf("The database says that it is at schema %d, but another program made it so: %s. "+
		`Nothing was changed. Move the record to a fresh database, as README.md tells under "Moving the record to a fresh database".`, d.Number, first)
}
