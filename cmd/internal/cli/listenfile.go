package cli

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"strings"
	"unicode/utf8"

	"lowsone/acoustics/recording"
)

// stdinName is what standard input is called in messages.
const stdinName = "standard input"

// fileName is what messages call the file of an argument.
func fileName(arg string) string {
	if arg == "-" {
		return stdinName
	}
	return arg
}

// analyse opens a recording and goes through it; - is standard input.
func (s *session) analyse(ctx context.Context, name string, part recording.Options) (*recording.Analysis, error) {
	if name == "-" {
		return analyse(ctx, s.env.Stdin, stdinName, part)
	}
	file, _, err := openFile("recording", name)
	if err != nil {
		return nil, err
	}
	defer file.Close()
	a, err := analyse(ctx, file, name, part)
	if errors.Is(err, recording.ErrNotWAV) && isTable(name, file) {
		return nil, failf("levels by band: lowsone loudness "+quoted(name), "%q is no recording but a text", name)
	}
	return a, err
}

func analyse(ctx context.Context, src io.Reader, name string, part recording.Options) (*recording.Analysis, error) {
	r, err := recording.Open(src, name)
	if err != nil {
		return nil, err
	}
	return recording.Analyse(ctx, r, part)
}

// openFile opens a file that is to be read; what says what it should be.
func openFile(what, name string) (*os.File, fs.FileInfo, error) {
	file, err := os.Open(name)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, nil, failf("", "there is no %s %q", what, name)
	case err != nil:
		return nil, nil, fmt.Errorf("read %s: %w", what, err)
	}
	info, err := file.Stat()
	if err == nil && info.IsDir() {
		err = failf("name a file in it", "%q is a folder", name)
	}
	if err != nil {
		file.Close()
		return nil, nil, err
	}
	return file, info, nil
}

// isTable says whether a file is a table rather than a sound, by its name or its
// first bytes.
func isTable(name string, file io.ReaderAt) bool {
	if hasEnding(name, ".csv", ".tsv", ".txt") {
		return true
	}
	head := make([]byte, 256)
	n, err := file.ReadAt(head, 0)
	if err != nil && !errors.Is(err, io.EOF) || n == 0 {
		return false
	}
	text := strings.ToValidUTF8(string(head[:n]), "") // a character may be cut in two
	return len(text) > n-utf8.UTFMax && !strings.ContainsFunc(text, func(r rune) bool { return r < ' ' && r != '\n' && r != '\r' && r != '\t' })
}

// isSound says whether a file is a WAV.
func isSound(file io.ReaderAt) bool {
	var head [12]byte
	n, err := file.ReadAt(head[:], 0)
	return n == len(head) && (err == nil || errors.Is(err, io.EOF)) && string(head[:4]) == "RIFF" && string(head[8:]) == "WAVE"
}
