package console

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"time"

	"detent/tuning"
)

// Kept is how long a picture or file that was put on disk stays there.
const Kept = 30 * 24 * time.Hour

// folderOf is the folder below dir that a person's files of a club are in, so
// that they can be removed with everything else about the person. Names may
// hold what no folder's name can, so it is called by their hash.
func folderOf(dir string, who tuning.Who) string {
	sum := sha256.Sum256([]byte(who.Club + "\x00" + who.Person))
	return filepath.Join(dir, hex.EncodeToString(sum[:8]))
}

// putFile puts data into a new file in folder and returns its path. The name
// begins with a time, and ends as given.
func putFile(folder, name string, at time.Time, data []byte) (path string, err error) {
	if err := os.MkdirAll(folder, 0o700); err != nil {
		return "", err
	}
	f, err := os.CreateTemp(folder, at.Format("20060102-150405-*-")+name)
	if err != nil {
		return "", err
	}
	_, err = f.Write(data)
	if err = errors.Join(err, f.Close()); err != nil {
		os.Remove(f.Name()) // half a file is of no use, and takes room
		return "", err
	}
	return f.Name(), nil
}

// notPut says why a picture or file could not be put on disk.
func notPut(folder string, err error) string {
	if errors.Is(err, syscall.ENOSPC) || errors.Is(err, syscall.EDQUOT) {
		return fmt.Sprintf("I could not save the picture or file: the disk with the folder %s is full. Make room on it and ask again.", folder)
	}
	return fmt.Sprintf("I could not save the picture or file: %v", err)
}

// Sweep removes the files below dir that were last written before a moment, and
// the folders that it leaves empty. A folder that is not there is swept.
func Sweep(dir string, before time.Time) error {
	var folders []string
	err := filepath.WalkDir(dir, func(path string, entry fs.DirEntry, err error) error {
		if errors.Is(err, fs.ErrNotExist) {
			return nil // another process sweeps too
		}
		if err != nil {
			return err
		}
		if entry.IsDir() {
			if path != dir {
				folders = append(folders, path)
			}
			return nil
		}
		info, err := entry.Info()
		if err == nil && info.ModTime().Before(before) {
			err = os.Remove(path)
		}
		if errors.Is(err, fs.ErrNotExist) {
			return nil
		}
		return err
	})
	for _, folder := range folders {
		os.Remove(folder) // fails when there is something in it
	}
	return err
}

// Forget removes the files below dir that are of a person in a club. Exports
// that earlier versions put into dir itself do not say whose they are: they all
// go, since they can be made again.
func Forget(dir string, who tuning.Who) error {
	errs := []error{os.RemoveAll(folderOf(dir, who))}
	inside, err := os.ReadDir(dir)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		errs = append(errs, err)
	}
	for _, entry := range inside {
		if entry.IsDir() || !strings.HasSuffix(entry.Name(), "-detent-export.zip") {
			continue
		}
		if err := os.Remove(filepath.Join(dir, entry.Name())); !errors.Is(err, fs.ErrNotExist) {
			errs = append(errs, err)
		}
	}
	return errors.Join(errs...)
}
