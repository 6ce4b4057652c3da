package localpg

import (
	"bytes"
	"io"
	"os"
)

// logLimit is the size in bytes past which the log begins anew at a start.
const logLimit = 1 << 20

// logHead is the first line of the log. A log without it was written by an
// earlier version, which let statements into it with what people had said.
const logHead = "The log of a private PostgreSQL. No statement and no value of one stands here.\n"

// openLog opens the log to be added to, and returns its length. One that is
// long, or of an earlier version, begins anew.
func (c cluster) openLog() (log *os.File, length int64, err error) {
	log, err = os.OpenFile(c.log(), os.O_RDWR|os.O_CREATE|os.O_APPEND, 0o600)
	if err != nil {
		return nil, 0, err
	}
	if length, err = prepareLog(log); err != nil {
		log.Close()
		return nil, 0, err
	}
	return log, length, nil
}

func prepareLog(log *os.File) (length int64, err error) {
	info, err := log.Stat()
	if err != nil {
		return 0, err
	}
	head := make([]byte, len(logHead))
	if _, err := log.ReadAt(head, 0); err != nil && err != io.EOF {
		return 0, err
	}
	if bytes.Equal(head, []byte(logHead)) && info.Size() <= logLimit {
		return info.Size(), nil
	}
	if err := log.Truncate(0); err != nil {
		return 0, err
	}
	n, err := log.WriteString(logHead)
	return int64(n), err
}
