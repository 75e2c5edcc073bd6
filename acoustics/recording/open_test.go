package recording

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"math"
	"runtime"
	"strings"
	"testing"
	"testing/iotest"

	"github.com/go-audio/audio"
	"github.com/go-audio/wav"

	"lowsone/catalog/quantity"
)

// ramp holds every kind of value of a sample: both ends, zero, one step.
func ramp(n int) []float64 {
	out := make([]float64, n)
	for i := range out {
		out[i] = -1 + 2*float64(i)/float64(n-1)
	}
	out[n/2] = 0
	return out
}

// samplesOf reads all samples.
func samplesOf(t testing.TB, r *Recording) [][]float64 {
	t.Helper()
	out := make([][]float64, r.format.Channels)
	for {
		next := make([][]float64, r.format.Channels)
		for c := range next {
			next[c] = make([]float64, 1000)
		}
		n, err := r.read(next)
		if err != nil {
			t.Fatalf("read = %v", err)
		}
		for c := range out {
			out[c] = append(out[c], next[c][:n]...)
		}
		if n < 1000 {
			return out
		}
	}
}

func TestReadsEveryFormat(t *testing.T) {
	left, right := ramp(3001), white(16000, 0.2, 0.1, 1)[:3001]
	for _, r := range []struct {
		name string
		file file
		tol  float64 // half a step
	}{
		{"16 bit", file{bits: 16}, math.Exp2(-16)},
		{"24 bit", file{bits: 24}, math.Exp2(-24)},
		{"32 bit", file{bits: 32}, math.Exp2(-32)},
		{"float", file{bits: 32, float: true}, math.Exp2(-25)},
		{"double", file{bits: 64, float: true}, 0},
		{"extensible 16 bit", file{bits: 16, extensible: true, valid: 16}, math.Exp2(-16)},
		{"extensible 24 bit, used bits not stated", file{bits: 24, extensible: true}, math.Exp2(-24)},
		{"extensible 24 of 32 bit", file{bits: 32, extensible: true, valid: 24}, math.Exp2(-32)},
		{"extensible float", file{bits: 32, float: true, extensible: true, valid: 32}, math.Exp2(-25)},
		{"chunks before the samples", file{bits: 16, before: []byte("LIST\x03\x00\x00\x00abc\x00JUNK\x00\x00\x00\x00")}, math.Exp2(-16)},
	} {
		for _, channels := range [][][]float64{{left}, {left, right}} {
			f := r.file
			f.rate, f.channels = 44100, channels
			got := samplesOf(t, opened(t, f.encode()))
			for c := range channels {
				for i, want := range channels[c] {
					// The largest sample of integers is one step below 1.
					if d := math.Abs(got[c][i] - want); d > r.tol && !(want == 1 && d <= 2*r.tol) {
						t.Fatalf("%s, %d channels: sample %d of channel %d = %v, want %v ± %v", r.name, len(channels), i, c, got[c][i], want, r.tol)
					}
				}
				if len(got[c]) != len(channels[c]) {
					t.Fatalf("%s, %d channels: %d samples, want %d", r.name, len(channels), len(got[c]), len(channels[c]))
				}
			}
		}
	}
}

// A second reader, which nobody here wrote, must see the same integers.
func TestAgreesWithAnotherReader(t *testing.T) {
	for _, bits := range []int{16, 24, 32} {
		data := file{rate: 48000, bits: bits, channels: [][]float64{ramp(2000), white(16000, 0.2, 0.2, 1)[:2000]}}.encode()
		d := wav.NewDecoder(bytes.NewReader(data))
		buffer := &audio.IntBuffer{Data: make([]int, 4000)}
		n, err := d.PCMBuffer(buffer)
		if err != nil || n != 4000 {
			t.Fatalf("%d bits: the other reader gives %d samples, %v", bits, n, err)
		}
		r := opened(t, data)
		if f := r.Format(); int(f.Rate) != int(d.SampleRate) || f.Channels != int(d.NumChans) || f.Bits != int(d.BitDepth) {
			t.Errorf("%d bits: format %v, the other reader gives %d Hz, %d channels, %d bits", bits, f, d.SampleRate, d.NumChans, d.BitDepth)
		}
		for c, samples := range samplesOf(t, r) {
			for i, v := range samples {
				if got, want := v*math.Exp2(float64(bits-1)), float64(buffer.Data[2*i+c]); got != want {
					t.Fatalf("%d bits: sample %d of channel %d = %v, want %v (the other reader)", bits, i, c, got, want)
				}
			}
		}
	}
}

func TestRefusesFiles(t *testing.T) {
	ok := file{rate: 44100, bits: 16, channels: [][]float64{ramp(10)}}
	with := func(change func(*file)) []byte {
		f := ok
		change(&f)
		return f.encode()
	}
	plain := ok.encode()
	replaced := func(at int, text string) []byte {
		b := bytes.Clone(plain)
		copy(b[at:], text)
		return b
	}
	for _, r := range []struct {
		name string
		data []byte
		kind error
		text string
	}{
		{"nothing", nil, ErrNotWAV, "empty"},
		{"text", []byte("Frequency;Level\n125;40\n"), ErrNotWAV, `begins with "Freq"`},
		{"FLAC", []byte("fLaC\x00\x00\x00\x22andmore"), ErrNotWAV, "fLaC"},
		{"MP3", []byte("ID3\x04\x00\x00\x00\x00\x00\x00more"), ErrNotWAV, "MPEG audio"},
		{"MP3 frames", []byte("\xff\xfb\x90\x64\x00\x00\x00\x00\x00\x00more"), ErrNotWAV, "MPEG audio"},
		{"UTF-16 text", []byte("\xff\xfeF\x00r\x00e\x00q\x00u\x00"), ErrNotWAV, "begins with"},
		{"MPEG-4", []byte("\x00\x00\x00\x20ftypM4A "), ErrNotWAV, "MPEG-4"},
		{"AVI", replaced(8, "AVI "), ErrNotWAV, `"AVI "`},
		{"RF64", replaced(0, "RF64"), ErrContainer, "RF64"},
		{"BW64", replaced(0, "BW64"), ErrContainer, "BW64"},
		{"RIFX", replaced(0, "RIFX"), ErrContainer, "other order"},
		{"cut in the head", plain[:10], ErrHeader, "after 10 bytes"},
		{"cut in the format", plain[:30], ErrHeader, "after 30 bytes"},
		{"no samples at all", plain[:36], ErrNoData, "after 36 bytes"},
		{"samples before the format", replaced(12, "junk"), ErrNoFormat, "before"},
		{"two formats", with(func(f *file) { f.before = append([]byte("fmt \x10\x00\x00\x00"), make([]byte, 16)...) }), ErrHeader, "two chunks"},
		{"endless format", replaced(16, "\x00\x00\x00\xb3"), ErrHeader, "3003121664 bytes"},
		{"short format", replaced(16, "\x0e"), ErrHeader, "14 bytes"},
		{"8 bit", with(func(f *file) { f.bits = 8 }), ErrSample, "8 bits"},
		{"12 bit", with(func(f *file) { f.bits = 12; f.align = ptr(uint16(2)) }), ErrSample, "12 bits"},
		{"64-bit PCM", with(func(f *file) { f.bits = 64 }), ErrSample, "64 bits"},
		{"16-bit float", with(func(f *file) { f.tag = ptr(uint16(tagFloat)) }), ErrSample, "16 bits"},
		{"ADPCM", with(func(f *file) { f.tag = ptr(uint16(0x11)) }), ErrCodec, "IMA ADPCM"},
		{"MPEG layer 3 within", with(func(f *file) { f.tag = ptr(uint16(0x55)) }), ErrCodec, "layer 3"},
		{"unknown codec", with(func(f *file) { f.tag = ptr(uint16(0x4242)) }), ErrCodec, "0x4242"},
		{"extensible, compressed", with(func(f *file) { f.extensible = true; f.tag = ptr(uint16(0x55)) }), ErrCodec, "layer 3"},
		{"extensible, too many bits", with(func(f *file) { f.extensible = true; f.valid = 17 }), ErrHeader, "17 of 16"},
		{"extensible, 8 of 16 bits", with(func(f *file) { f.extensible = true; f.valid = 8 }), ErrHeader, "8 of 16"},
		{"extensible, short", with(func(f *file) { f.tag = ptr(uint16(tagExtensible)) }), ErrHeader, "16 bytes"},
		{"three channels", with(func(f *file) { f.channels = [][]float64{ramp(10), ramp(10), ramp(10)} }), ErrChannels, "3 channels"},
		{"no channel", with(func(f *file) { f.channels = nil }), ErrChannels, "no channel"},
		{"8 kHz", with(func(f *file) { f.rate = 8000 }), ErrRate, "8000 Hz"},
		{"768 kHz", with(func(f *file) { f.rate = 768000 }), ErrRate, "768000 Hz"},
		{"contradiction", with(func(f *file) { f.align = ptr(uint16(4)) }), ErrHeader, "contradicts"},
		{"one second", with(func(f *file) { f.channels = [][]float64{ramp(44100)} }), ErrTooShort, "only 1 s"},
		{"no sample", with(func(f *file) { f.channels = [][]float64{{}} }), ErrTooShort, "only 0 s"},
	} {
		e := refusal(t, r.data)
		if !errors.Is(e, r.kind) || !strings.Contains(e.Error(), r.text) || !strings.HasPrefix(e.Error(), "fan.wav: ") {
			t.Errorf("%s: error %q of kind %v, want %q of kind %v", r.name, e, e.Err, r.text, r.kind)
		}
		if e.Hint == "" && r.name != "nothing" {
			t.Errorf("%s: %q has no hint", r.name, e)
		}
	}
}

// A file that is cut off anywhere is read as far as it goes, or refused; never
// more than the header claims is missing.
func TestTruncatedAtEveryByte(t *testing.T) {
	data := file{rate: 16000, bits: 24, before: []byte("LIST\x03\x00\x00\x00abc\x00"), channels: [][]float64{ramp(50), ramp(50)}}.encode()
	for n := range data {
		r, err := Open(bytes.NewReader(data[:n]), "fan.wav")
		if err != nil {
			if e := (*Error)(nil); !errors.As(err, &e) {
				t.Errorf("cut at %d: error %v, want an *Error", n, err)
			}
			continue
		}
		got := samplesOf(t, r)
		if want := (n - 56) / 6; len(got[0]) != want || len(got[1]) != want {
			t.Errorf("cut at %d: %d and %d samples, want %d", n, len(got[0]), len(got[1]), want)
		}
		missing := float64(len(data)-n) / 6 / 16000
		if got := float64(r.missing()); math.Abs(got-missing) > 1e-12 {
			t.Errorf("cut at %d: %v s missing, want %v", n, got, missing)
		}
	}
}

func TestTruncatedIsTold(t *testing.T) {
	data := mono(16000, white(16000, 20, 0.1, 1)).encode()
	a := analysedBytes(t, data[:len(data)-5*2*16000-1])
	if math.Abs(float64(a.Duration)-15) > 0.001 {
		t.Errorf("duration %v s, want 15", a.Duration)
	}
	wantFinding(t, a, Truncated, "5 s more")
	wantFinding(t, analysedBytes(t, mono(16000, white(16000, 4, 0.1, 1)).encode()), Short, "only 4 s")
	e := refusal(t, data[:44+32000])
	if !errors.Is(e, ErrTooShort) || !strings.Contains(e.Error(), "19 s more") {
		t.Errorf("error %q, want 19 s more claimed", e)
	}
}

// wantFinding wants a finding of a kind with a text in it.
func wantFinding(t *testing.T, a *Analysis, k Kind, text string) {
	t.Helper()
	for _, f := range a.Findings {
		if f.Kind == k {
			if !strings.Contains(f.Text, text) {
				t.Errorf("finding %v: %q, want %q in it", k, f.Text, text)
			}
			return
		}
	}
	t.Errorf("findings %v, want one of kind %v", a.Findings, k)
}

// wantNoFindings wants none but those of the given kinds.
func wantNoFindings(t *testing.T, a *Analysis, but ...Kind) {
	t.Helper()
	for _, f := range a.Findings {
		found := false
		for _, k := range but {
			found = found || f.Kind == k
		}
		if !found {
			t.Errorf("finding %v: %q, want none", f.Kind, f.Text)
		}
	}
}

// Sizes of a header are claims. None of them makes room in memory.
func TestHeaderLies(t *testing.T) {
	noise := [][]float64{white(16000, 11, 0.1, 1)}
	chunk := func(id string, size uint32) []byte {
		return append([]byte(id), byte(size), byte(size>>8), byte(size>>16), byte(size>>24))
	}
	for _, r := range []struct {
		name string
		file file
		kind Kind
		want string // in the finding or in the error
		err  error
	}{
		{"4 GB of samples", file{claim: ptr(uint32(0xfffffff0)), channels: noise}, Truncated, "1.342e+05 s more", nil},
		{"2 GB of samples", file{claim: ptr(uint32(0x7fffffff)), channels: noise}, Truncated, "s more", nil},
		{"length not stated", file{claim: ptr(uint32(0xffffffff)), channels: noise}, LengthUnstated, "end of the file", nil},
		{"header never finished", file{claim: ptr(uint32(0)), whole: ptr(uint32(0)), channels: noise}, LengthUnstated, "end of the file", nil},
		{"no samples, says a finished header", file{claim: ptr(uint32(0)), channels: noise}, 0, "only 0 s", ErrTooShort},
		{"4 GB chunk before", file{before: chunk("LIST", 0xfffffffe), channels: noise}, 0, `"LIST" claims 4294967294 bytes`, ErrNoData},
		{"chunk of all ones before", file{before: chunk("bext", 0xffffffff), channels: noise}, 0, `"bext" claims 4294967295 bytes`, ErrNoData},
	} {
		r.file.rate, r.file.bits = 16000, 16
		data := r.file.encode()
		var a *Analysis
		var err error
		used := allocated(func() {
			var rec *Recording
			if rec, err = Open(bytes.NewReader(data), "fan.wav"); err == nil {
				a, err = Analyse(context.Background(), rec, Options{})
			}
		})
		if used > 8<<20 {
			t.Errorf("%s: %d bytes allocated, want under 8 MiB", r.name, used)
		}
		if r.err != nil {
			if !errors.Is(err, r.err) || !strings.Contains(err.Error(), r.want) {
				t.Errorf("%s: error %v, want %q of kind %v", r.name, err, r.want, r.err)
			}
			continue
		}
		if err != nil {
			t.Errorf("%s: %v", r.name, err)
			continue
		}
		wantFinding(t, a, r.kind, r.want)
		if math.Abs(float64(a.Duration)-11) > 1e-9 {
			t.Errorf("%s: %v s, want 11", r.name, a.Duration)
		}
	}
}

// A header without end is given up.
func TestEndlessHeader(t *testing.T) {
	chunk := append([]byte("JUNK\x00\x00\x10\x00"), make([]byte, 1<<20)...)
	for _, head := range []string{"RIFF\xff\xff\xff\xffWAVE", "RIFF\xff\xff\xff\xffWAVELIST\xfe\xff\xff\xff"} {
		_, err := Open(io.MultiReader(strings.NewReader(head), &repeated{text: chunk}), "fan.wav")
		if !errors.Is(err, ErrHeader) || !strings.Contains(err.Error(), "64 MiB") {
			t.Errorf("Open(%q and on) = %v, want ErrHeader and 64 MiB", head, err)
		}
	}
}

// allocated gives how many bytes a function allocates.
func allocated(do func()) uint64 {
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	do()
	runtime.ReadMemStats(&after)
	return after.TotalAlloc - before.TotalAlloc
}

func TestSamplesThatAreNoNumbers(t *testing.T) {
	for _, bad := range []float64{math.NaN(), math.Inf(1), math.Inf(-1), 1e30} {
		for _, bits := range []int{32, 64} {
			samples := white(16000, 4, 0.1, 1)
			samples[16000*3] = bad
			e := refusal(t, file{rate: 16000, bits: bits, float: true, channels: [][]float64{samples}}.encode())
			if !errors.Is(e, ErrNotANumber) || !strings.Contains(e.Error(), "at 3 s") {
				t.Errorf("%v in %d bits: error %q, want one that names 3 s", bad, bits, e)
			}
		}
	}
}

func TestReaderFails(t *testing.T) {
	data := mono(16000, white(16000, 5, 0.1, 1)).encode()
	broken := errors.New("disk on fire")
	for _, at := range []int{0, 5, 20, 40, 44 + 3*32000} {
		r, err := Open(io.MultiReader(bytes.NewReader(data[:at]), iotest.ErrReader(broken)), "fan.wav")
		if err == nil {
			_, err = Analyse(context.Background(), r, Options{})
		}
		if !errors.Is(err, ErrRead) || !errors.Is(err, broken) {
			t.Errorf("failing after %d bytes: error %v, want ErrRead and its cause", at, err)
		}
	}
	a := analysedBytes(t, data)
	r, err := Open(iotest.OneByteReader(bytes.NewReader(data)), "fan.wav")
	if err != nil {
		t.Fatal(err)
	}
	b, err := Analyse(context.Background(), r, Options{})
	if err != nil || a.Level != b.Level {
		t.Errorf("byte by byte: %v, %v, want %v", b, err, a.Level)
	}
	if _, err := Analyse(context.Background(), r, Options{}); !errors.Is(err, ErrRead) {
		t.Errorf("a second way through: %v, want ErrRead", err)
	}
}

func TestFormatWords(t *testing.T) {
	for _, r := range []struct {
		f    file
		want string
	}{
		{file{rate: 44100, bits: 16, channels: [][]float64{ramp(9)}}, "44100 Hz, mono, 16-bit PCM"},
		{file{rate: 96000, bits: 32, float: true, channels: [][]float64{ramp(9), ramp(9)}}, "96000 Hz, stereo, 32-bit float"},
	} {
		rec := opened(t, r.f.encode())
		if got := fmt.Sprint(rec.Format()); got != r.want {
			t.Errorf("Format = %q, want %q", got, r.want)
		}
		if d, ok := rec.Claimed().Get(); !ok || math.Abs(float64(d)-9/float64(r.f.rate)) > 1e-12 {
			t.Errorf("Claimed = %v, %v, want 9 samples", d, ok)
		}
		if rec.Name() != "fan.wav" {
			t.Errorf("Name = %q", rec.Name())
		}
	}
	if d := opened(t, file{rate: 16000, bits: 16, claim: ptr(uint32(notStated)), channels: [][]float64{ramp(9)}}.encode()).Claimed(); d != (quantity.Known[quantity.Time]{}) {
		t.Errorf("Claimed = %v, want unknown", d)
	}
}

// Numbers of floating point far below any microphone are no sound.
func TestSilentInFloatingPoint(t *testing.T) {
	for _, rms := range []float64{1e-9, 1e-20, 1e-40} {
		e := refusal(t, file{rate: 16000, bits: 64, float: true, channels: [][]float64{sine(16000, 3, 440, rms)}}.encode())
		if !errors.Is(e, ErrSilent) {
			t.Errorf("a sine of %g: error %v, want ErrSilent", rms, e)
		}
	}
	if a := analysed(t, file{rate: 16000, bits: 32, float: true, channels: [][]float64{sine(16000, 3, 440, 1e-7)}}); a.Channels[0].Silent {
		t.Error("a sine of 1e-7 is silent, want a sound")
	}
}

func TestShare(t *testing.T) {
	for percent, want := range map[float64]string{100: "100", 99.6: "100", 4.25: "4.2", 0.012: "0.012", 1e-5: "under 0.001"} {
		if got := share(percent); got != want {
			t.Errorf("share(%v) = %q, want %q", percent, got, want)
		}
	}
}
