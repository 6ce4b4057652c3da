package localpg

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
)

// longest is what the path of a Unix socket may measure, in bytes: 107 on
// Linux, 103 on the BSDs and macOS.
const longest = 103

// shortName gives a folder a name that the path of its socket fits under, and
// that reads as one name where lib/pq and psql take a list. A name that will
// not do is stood in for by a link in a private folder of this process.
func shortName(folder string) (string, error) {
	if len(folder)+len("/.s.PGSQL.")+len(port) <= longest && !strings.Contains(folder, ",") {
		return folder, nil
	}
	private, err := os.MkdirTemp("/tmp", "detent-")
	if err != nil {
		return "", fmt.Errorf("the path of the data folder is too long for a Unix socket, and no short one can be made: %w", err)
	}
	link := filepath.Join(private, "pg")
	if err := os.Symlink(folder, link); err != nil {
		return "", err
	}
	return link, nil
}

// forgetShortName removes what shortName made.
func (c cluster) forgetShortName() error {
	if c.sockets == c.data() {
		return nil
	}
	return os.RemoveAll(filepath.Dir(c.sockets))
}
