package recording

import (
	"io"

	"github.com/go-audio/riff"

	"lowsone/catalog/quantity"
)

// Recording is an opened WAV file. Its samples can be gone through once.
type Recording struct {
	name    string
	format  Format
	src     io.Reader
	claimed int64 // bytes of samples by the header; negative: not stated
	taken   int64 // bytes of samples read
	frames  int64 // samples of one channel read
	over    bool
	raw     []byte
}

// Open reads the header of a WAV file up to its first sample: mono or stereo,
// PCM of 16, 24 or 32 bits or floating point of 32 or 64, sampled 16,000 to
// 384,000 times a second. name is for messages. The samples are read later, by
// [Analyse]; r must stay open until then, and nothing but Analyse may read it.
//
// What it refuses comes as an [*Error]. No size of the header is trusted: a file
// that is shorter than its header claims is read as far as it goes.
func Open(r io.Reader, name string) (*Recording, error) {
	src := &counter{r: r}
	w := &walker{name: name, src: src, parser: riff.New(src)}
	claimed, err := w.toSamples()
	if err != nil {
		return nil, err
	}
	return &Recording{name: name, format: *w.format, src: src, claimed: claimed, raw: make([]byte, blockBytes)}, nil
}

// Name is the name the recording was opened by.
func (r *Recording) Name() string { return r.name }

// Format is how its samples are written.
func (r *Recording) Format() Format { return r.format }

// Claimed is how long the recording is by its header, which may be wrong;
// unknown where the header does not say.
func (r *Recording) Claimed() quantity.Known[quantity.Time] {
	if r.claimed < 0 {
		return quantity.Known[quantity.Time]{}
	}
	return quantity.Stated(r.seconds(r.claimed))
}

// missing is how much of what the header claims is not there. It is known once
// the recording is over.
func (r *Recording) missing() quantity.Time {
	if !r.over || r.claimed < 0 {
		return 0
	}
	return r.seconds(r.claimed - r.taken)
}

// seconds is how long bytes of samples last.
func (r *Recording) seconds(bytes int64) quantity.Time {
	return quantity.Time(float64(bytes) / float64(r.format.frame()) / float64(r.format.Rate))
}
