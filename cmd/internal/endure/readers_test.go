package endure

import (
	"strings"
	"sync"
	"testing"
)

// Whoever reads while imports take turns gets one of the two answers, whole.
func TestReadersDuringImports(t *testing.T) {
	b := newBed(t)
	stop := make(chan struct{})
	var readers sync.WaitGroup
	counts := make([][2]int, 3)
	for i := range counts {
		readers.Go(func() {
			for {
				select {
				case <-stop:
					return
				default:
				}
				out, err := b.command("search", "--format", "json", "-q").Output()
				switch {
				case err != nil:
					t.Errorf("a search during an import: %v", err)
					return
				case string(out) == b.answers[0].all:
					counts[i][0]++
				case string(out) == b.answers[1].all:
					counts[i][1]++
				default:
					t.Errorf("a search during an import answers as neither list: %d fans", strings.Count(string(out), `"part"`))
					return
				}
			}
		})
	}
	for range 4 {
		b.mustImport(1 - b.state)
	}
	close(stop)
	readers.Wait()
	t.Logf("answers of the one and of the other list, by reader: %v", counts)
	b.mustImport(1 - b.state)
	b.swept()
}
