package localpg

import (
	"fmt"
	"os"
	"os/exec"
)

// process is the server as the one who started it sees it.
type process struct {
	cmd    *exec.Cmd
	log    string
	said   int64 // the length of the log before the start
	exited chan struct{}
}

// failure is nil while the process lives, and then says why it died.
func (p *process) failure() error {
	select {
	case <-p.exited:
	default:
		return nil
	}
	text, err := os.ReadFile(p.log)
	if err != nil {
		return err
	}
	why := complaint(text[min(p.said, int64(len(text))):])
	if why == "" {
		why = p.cmd.ProcessState.String() // killed, say
	}
	return programError{fmt.Errorf("PostgreSQL did not start: %s (more in %s)", why, p.log)}
}
