package store

import (
	"context"
	"testing"
)

// What the reading of a source was told stays with it while others are imported.
func TestOptionsStayWithTheSource(t *testing.T) {
	const options = "--decimal ,\n--column leads=Anschlüsse"
	dir := t.TempDir()
	b, err := Begin(context.Background(), dir, Import{Source: "a.csv", Options: options, Time: day})
	if err != nil {
		t.Fatal(err)
	}
	if err := add(b, part("P1")); err != nil {
		t.Fatal(err)
	}
	if _, err := b.Commit(context.Background()); err != nil {
		t.Fatal(err)
	}
	fill(t, dir, "b.csv", part("P2"))
	c := open(t, dir)
	defer c.Close()
	for i, want := range []string{options, ""} {
		if got := c.Info().Sources[i].Options; got != want {
			t.Errorf("options of source %d = %q, want %q", i, got, want)
		}
	}
}
