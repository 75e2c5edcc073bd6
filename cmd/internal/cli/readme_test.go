package cli

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"lowsone/cmd/internal/demo"
)

// TestReadme runs the session of the README: every block marked console, in
// order, in a folder that holds the demo's parts list and device files.
func TestReadme(t *testing.T) {
	path, err := filepath.Abs("../../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	work := t.TempDir()
	files := demo.Files{Dir: filepath.Join(work, ".demo")}
	if err := os.Mkdir(files.Dir, 0o777); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(files.Parts(), demo.Parts(), 0o666); err != nil {
		t.Fatal(err)
	}
	copyDevices(t, work)
	t.Chdir(work)
	got := runBlocks(t, string(text), work)
	if *update {
		if err := os.WriteFile(path, []byte(got), 0o666); err != nil {
			t.Fatal(err)
		}
		return
	}
	if diff := cmp.Diff(strings.Split(string(text), "\n"), strings.Split(got, "\n")); diff != "" {
		t.Errorf("README.md differs (-want +got):\n%s", diff)
	}
}

// copyDevices puts the device files of the tree where the tree has them.
func copyDevices(t *testing.T, work string) {
	const folder = "testdata/devices"
	if err := os.MkdirAll(filepath.Join(work, folder), 0o777); err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{"amplifier.yaml", "cabinet.yaml"} {
		if err := os.WriteFile(filepath.Join(work, folder, name), ofTree(t, folder+"/"+name), 0o666); err != nil {
			t.Fatal(err)
		}
	}
}

// runBlocks gives the text with every console block replayed. At least one
// must be there.
func runBlocks(t *testing.T, text, work string) string {
	const open, end = "```console\n", "```\n"
	var out strings.Builder
	blocks := 0
	for {
		before, rest, found := strings.Cut(text, open)
		out.WriteString(before)
		if !found {
			break
		}
		session, after, closed := strings.Cut(rest, end)
		if !closed {
			t.Fatal("README.md: a console block is not closed")
		}
		out.WriteString(open + replayPiped(t, session, work) + end)
		text = after
		blocks++
	}
	if blocks == 0 {
		t.Fatal("README.md has no console block")
	}
	return out.String()
}

// replayPiped is replay for commands that may end in "| head -N" or
// "| tail -N", which keep so many lines of what is printed, and for "export
// NAME=VALUE".
func replayPiped(t *testing.T, session, work string) string {
	var out strings.Builder
	variable := "LOWSONE_CATALOG=.demo/mine "
	for line := range strings.Lines(session) {
		command, isCommand := strings.CutPrefix(line, "$ ")
		if !isCommand {
			continue
		}
		out.WriteString(line)
		command, pipe, _ := strings.Cut(strings.TrimSpace(command), " | ")
		if strings.HasPrefix(command, "export ") {
			variable = strings.TrimPrefix(command, "export ") + " "
			continue
		}
		out.WriteString(keep(t, onTerminal(runLine(t, variable+command, work)), pipe))
	}
	return out.String()
}

// onTerminal gives what a command printed as a person sees it: both streams
// alike, in a folder of theirs.
func onTerminal(text string) string {
	var out strings.Builder
	for line := range strings.Lines(text) {
		out.WriteString(strings.TrimPrefix(line, "2| "))
	}
	return strings.ReplaceAll(out.String(), "$WORK", "~")
}

func keep(t *testing.T, text, pipe string) string {
	if pipe == "" {
		return text
	}
	var n int
	lines := strings.SplitAfter(strings.TrimSuffix(text, "\n"), "\n")
	if _, err := fmt.Sscanf(pipe, "head -%d", &n); err == nil {
		return strings.Join(lines[:min(n, len(lines))], "")
	}
	if _, err := fmt.Sscanf(pipe, "tail -%d", &n); err == nil {
		return strings.Join(lines[max(0, len(lines)-n):], "") + "\n"
	}
	t.Fatalf("README.md: | %s is not replayed", pipe)
	return ""
}
