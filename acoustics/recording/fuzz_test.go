package recording

import (
	"bytes"
	"context"
	"errors"
	"io"
	"math"
	"strings"
	"testing"

	"lowsone/acoustics"
	"lowsone/catalog/tabular"
)

// repeated gives the same bytes again and again.
type repeated struct {
	text []byte
	at   int
}

func (r *repeated) Read(p []byte) (int, error) {
	for n := 0; n < len(p); {
		k := copy(p[n:], r.text[r.at:])
		r.at = (r.at + k) % len(r.text)
		n += k
	}
	return len(p), nil
}

// FuzzRecording reads any bytes, and others after them again and again, enough
// for some seconds. Whatever they are: no panic, memory bounded, errors typed,
// levels that are levels.
func FuzzRecording(f *testing.F) {
	noise := mono(16000, white(16000, 0.01, 0.1, 1)).samples()
	for _, h := range []file{
		{bits: 16}, {bits: 24, extensible: true}, {bits: 32}, {bits: 32, float: true}, {bits: 64, float: true},
		{bits: 16, claim: ptr(uint32(0xffffffff))}, {bits: 16, claim: ptr(uint32(0))}, {bits: 8}, {bits: 24, before: []byte("LIST\x03\x00\x00\x00abc\x00")},
		{bits: 16, before: []byte("LIST\xff\xff\xff\xffabc\x00")},
	} {
		for _, channels := range [][][]float64{{{}}, {{}, {}}} {
			h.rate, h.channels = 16000, channels
			if h.claim == nil {
				h.claim = ptr(uint32(100000))
			}
			f.Add(h.encode(), noise)
			f.Add(h.encode(), []byte{0})
			f.Add(h.encode()[:30], []byte{})
		}
	}
	f.Add([]byte("RF64\xff\xff\xff\xffWAVE"), []byte{1})
	f.Fuzz(func(t *testing.T, head, tail []byte) {
		src := io.Reader(bytes.NewReader(head))
		if len(tail) > 0 {
			src = io.MultiReader(src, io.LimitReader(&repeated{text: tail}, 140000))
		}
		var a *Analysis
		var err error
		used := allocated(func() {
			var r *Recording
			if r, err = Open(src, "fuzz.wav"); err == nil {
				a, err = Analyse(context.Background(), r, Options{})
			}
		})
		if used > 16<<20 {
			t.Errorf("%d bytes allocated for %d bytes of file", used, len(head))
		}
		if e := (*Error)(nil); err != nil && !errors.As(err, &e) {
			t.Fatalf("error %v (%T), want an *Error", err, err)
		}
		if err == nil {
			checkLevels(t, a)
		}
	})
}

// checkLevels wants levels that are levels.
func checkLevels(t *testing.T, a *Analysis) {
	l := a.Level
	for _, v := range []FullScale{l.Equivalent, l.Max, l.L10, l.L50, l.L90, a.C, a.Overall} {
		if math.IsNaN(v.DB()) || math.IsInf(v.DB(), 1) {
			t.Errorf("levels %+v, C %v, unweighted %v, want numbers or silence", l, a.C, a.Overall)
		}
	}
	if l.L10.DB() < l.L50.DB() || l.L50.DB() < l.L90.DB() || l.Max.DB() < l.L10.DB()-0.1 && l.L10.DB() > lowestClass+1 {
		t.Errorf("levels %+v, want them in order", l)
	}
	for i, v := range a.Thirds {
		known := float64(acoustics.ThirdHz(i))*halfBand <= float64(a.Format.Rate)/2
		if known == math.IsNaN(v.DB()) || math.IsInf(v.DB(), 1) {
			t.Errorf("band %d = %v, want a level where the sampling rate reaches", i, v)
		}
	}
	if a.Duration < Shortest {
		t.Errorf("%v s analysed", a.Duration)
	}
}

// FuzzReadBands reads any bytes as a table.
func FuzzReadBands(f *testing.F) {
	for _, text := range []string{
		"", "\n", "125;40", "Frequency [Hz];Level [dB]\n" + octaveRows(";", plainOctaves...), octaveRows(",", plainOctaves...),
		"Time;125 Hz;250 Hz;500 Hz;1 kHz;2 kHz;4 kHz\n12:00;40;41;42;43;44;45\n12:01;40;41;;43;44;45\n",
		"Kind;125;250;500;1000;2000;4000\nLAeq;40;41;42;43;44;45\nLZmax;1;2;3;4;5;6\n", "T\n\nFrequency;Level\nHz;dB(A)\n125,0;40,0\nTotal;3\n",
		"LAeq_125Hz,LAeq_250Hz,LAeq_500Hz,LAeq_1kHz,LAeq_2kHz,LAeq_4kHz\n1,2,3,4,5,6\n", "Frequency;Lmax;Leq\n125;1;2\n1k;-inf;3\n",
	} {
		f.Add([]byte(text), "")
	}
	f.Fuzz(func(t *testing.T, data []byte, column string) {
		table, err := ReadBands(context.Background(), "fuzz.csv", bytes.NewReader(data), int64(len(data)), TableOptions{Column: column})
		if err != nil {
			var own *Error
			var theirs *tabular.Error
			if !errors.As(err, &own) && !errors.As(err, &theirs) {
				t.Fatalf("error %v (%T), want a typed one", err, err)
			}
			if own != nil && (own.Reason == "" || !strings.HasPrefix(own.Error(), "fuzz.csv")) {
				t.Errorf("error %q, want the file and a reason", own)
			}
			return
		}
		for i, l := range table.Thirds {
			if math.IsNaN(l) || l > 130 {
				t.Errorf("band %d = %v dB", i, l)
			}
		}
		if table.Rows < 1 {
			t.Errorf("%d rows", table.Rows)
		}
	})
}
