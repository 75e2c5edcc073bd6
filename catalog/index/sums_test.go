package index

import (
	"context"
	"fmt"
	"testing"

	"pgregory.net/rapid"
)

// Every text of an index is found by its words and by no others.
func TestTextSums(t *testing.T) {
	draw := rapid.SliceOfN(rapid.StringMatching(`[A-Za-zäöüß0-9×/. -]{0,20}`), 1, 60)
	for seed := range 10 {
		texts := draw.Example(seed)
		b, err := NewBuilder(t.TempDir() + "/words")
		if err != nil {
			t.Fatal(err)
		}
		want := map[uint32]uint64{0: 0}
		for _, text := range texts {
			want[b.Text([]byte(text))] = TextSum(text)
		}
		sums := sumsOf(t, b)
		if len(sums) != b.Texts()+1 {
			t.Fatalf("%d sums of %d texts", len(sums), b.Texts())
		}
		for n, sum := range sums {
			if sum != want[uint32(n)] {
				t.Errorf("text %d: sum %x, want %x", n, sum, want[uint32(n)])
			}
		}
	}
}

// Enough texts for several shards and segments.
func TestTextSumsOfMany(t *testing.T) {
	b, err := NewBuilder(t.TempDir() + "/words")
	if err != nil {
		t.Fatal(err)
	}
	text := func(n int) string { return fmt.Sprintf("fan no %d with %d blades", n, n%17) }
	const texts = shardTexts + 3*batchTexts
	for n := range texts {
		b.Text([]byte(text(n)))
	}
	for n, sum := range sumsOf(t, b) {
		if n > 0 && sum != TextSum(text(n-1)) {
			t.Fatalf("text %d: sum %x, want %x", n, sum, TextSum(text(n-1)))
		}
	}
}

func sumsOf(t *testing.T, b *Builder) []uint64 {
	t.Helper()
	if err := b.Close(); err != nil {
		t.Fatal(err)
	}
	x, err := Open(b.dir, b.Texts(), shelves{})
	if err != nil {
		t.Fatal(err)
	}
	defer x.Close()
	sums, err := x.TextSums(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	return sums
}

// Words in another order are the same words; another word is another sum.
func TestTextSum(t *testing.T) {
	if TextSum("low speed fan") != TextSum("fan, speed: LOW") {
		t.Error("the same words have two sums")
	}
	seen := map[uint64]string{}
	for _, text := range []string{"", "fan", "fans", "low fan", "low", "fan low fan 2", "2"} {
		sum := TextSum(text)
		if other, ok := seen[sum]; ok {
			t.Errorf("%q and %q have one sum", text, other)
		}
		seen[sum] = text
	}
}
