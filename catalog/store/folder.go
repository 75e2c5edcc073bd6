package store

import (
	"errors"
	"fmt"
	"io/fs"
	"math"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strconv"
	"strings"
)

// What stands in a catalogue folder: CURRENT, the name of the live generation;
// LOCK, held by a running import; and the generations. A generation holds the
// blob file, the word index and the manifest, which its readers hold.
const (
	currentFile  = "CURRENT"
	lockFile     = "LOCK"
	blobFile     = "fans.db"
	wordsFolder  = "words"
	manifestFile = "manifest.json"
	spoolFile    = "spool" // only while an import runs
)

// temporaryMark parts the name of a file from what makes its first, temporary
// name unique.
const temporaryMark = ".new-"

const generationPrefix = "gen-"

func generationName(n int) string { return fmt.Sprintf("%s%06d", generationPrefix, n) }

func generationNumber(name string) (int, bool) {
	digits, ok := strings.CutPrefix(name, generationPrefix)
	n, err := strconv.Atoi(digits)
	return n, ok && err == nil && n > 0 && generationName(n) == name
}

// generations lists the numbers of the generations in dir, finished or not,
// rising.
func generations(dir string) ([]int, error) {
	entries, err := os.ReadDir(dir)
	if err != nil {
		return nil, err
	}
	var found []int
	for _, e := range entries {
		if n, ok := generationNumber(e.Name()); ok && e.IsDir() {
			found = append(found, n)
		}
	}
	slices.Sort(found)
	return found, nil
}

// serves says whether generation n was finished and its records are there: with
// them its words can be made anew.
func serves(dir string, n int) bool {
	folder := filepath.Join(dir, generationName(n))
	m, err := readManifest(filepath.Join(folder, manifestFile))
	if err != nil {
		return false
	}
	path, _ := m.misfit(folder, func(name string) bool { return name == blobFile })
	return path == ""
}

// finished says whether generation n has a manifest: it was written to its end.
func finished(dir string, n int) bool {
	_, err := os.Stat(filepath.Join(dir, generationName(n), manifestFile))
	return err == nil
}

// newestServing gives the newest generation below n that serves; 0 where there is
// none.
func newestServing(dir string, below int) (int, error) {
	all, err := generations(dir)
	if err != nil {
		return 0, err
	}
	for _, n := range slices.Backward(all) {
		if n < below && serves(dir, n) {
			return n, nil
		}
	}
	return 0, nil
}

// live gives the number of the live generation. Where CURRENT is gone, it is
// the newest that was finished. Errors: *NoneError, *DamagedError, those of
// reading.
func live(dir string) (int, error) {
	path := filepath.Join(dir, currentFile)
	b, err := os.ReadFile(path)
	if errors.Is(err, fs.ErrNotExist) {
		return liveWithoutCurrent(dir)
	}
	if info, stat := os.Stat(dir); err != nil && stat == nil && !info.IsDir() {
		return 0, fmt.Errorf("open catalogue: %q is a file, a catalogue is a folder", dir)
	}
	if err != nil {
		return 0, fmt.Errorf("open catalogue: %w", err)
	}
	n, reason := decodePointer(b)
	if reason != "" {
		return 0, &DamagedError{path, reason}
	}
	return n, nil
}

func liveWithoutCurrent(dir string) (int, error) {
	n, err := newestServing(dir, math.MaxInt)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return 0, fmt.Errorf("open catalogue: %w", err)
	}
	if n == 0 {
		return 0, &NoneError{dir}
	}
	return n, nil
}

// newestOpening opens the newest generation below n that opens; nil where none does.
func newestOpening(dir string, below int) (*Catalogue, error) {
	all, err := generations(dir)
	if err != nil {
		return nil, err
	}
	for _, n := range slices.Backward(all) {
		if n >= below || !finished(dir, n) {
			continue
		}
		c, err := openGeneration(dir, n)
		var older *OlderError
		switch {
		case err == nil:
			return c, nil
		case err == errGone, errors.As(err, &older):
		case unlessDamage(err) != nil:
			return nil, err
		}
	}
	return nil, nil
}

// answering gives the live generation, or the one that is to stand in for it where
// CURRENT is damaged or gone: the newest that was finished. Where it is damaged
// itself, one before may answer instead, but it is the one of which something was
// lost. What is wrong with CURRENT comes too. Errors: *NoneError, those of reading.
func answering(dir string) (n int, damage *DamagedError, err error) {
	n, err = live(dir)
	current := filepath.Join(dir, currentFile)
	_, missing := os.Stat(current)
	none := errors.Is(err, ErrNone)
	newest := newestFinished(dir)
	switch {
	case errors.As(err, &damage):
		return newest, damage, nil
	case none && newest == 0, err != nil && !none, missing == nil, n == newest:
		return n, nil, err
	}
	return newest, &DamagedError{current, "it is missing"}, nil
}

// newestFinished gives the newest generation with a manifest; 0 where there is
// none.
func newestFinished(dir string) (newest int) {
	all, _ := generations(dir)
	for _, n := range all {
		if finished(dir, n) {
			newest = n
		}
	}
	return newest
}

// writeSynced replaces the file at path whole, or not at all.
func writeSynced(path string, content []byte) (err error) {
	f, err := os.CreateTemp(filepath.Dir(path), filepath.Base(path)+temporaryMark+"*")
	if err != nil {
		return err
	}
	defer func() {
		if err != nil {
			_ = os.Remove(f.Name())
		}
	}()
	_, err = f.Write(content)
	if err == nil {
		err = f.Chmod(0o644)
	}
	if err == nil {
		err = f.Sync()
	}
	if errClose := f.Close(); err == nil {
		err = errClose
	}
	if err == nil {
		err = os.Rename(f.Name(), path)
	}
	return err
}

// syncFolder makes the names in a folder durable. Windows has no such call.
func syncFolder(dir string) error {
	if runtime.GOOS == "windows" {
		return nil
	}
	f, err := os.Open(dir)
	if err != nil {
		return err
	}
	defer f.Close()
	return f.Sync()
}
