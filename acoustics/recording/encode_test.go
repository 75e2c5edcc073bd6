package recording

import (
	"bytes"
	"context"
	"encoding/binary"
	"errors"
	"math"
	"testing"
)

// file is a WAV file for the tests: one header field after the other, so that
// each can lie.
type file struct {
	rate       int
	bits       int
	float      bool
	extensible bool
	valid      int     // of the extensible format; 0: all
	before     []byte  // chunks between format and samples
	claim      *uint32 // size of the samples in the header; nil: the true one
	tag        *uint16 // format tag; nil: the true one
	align      *uint16 // bytes a frame; nil: the true one
	whole      *uint32 // size in the head; nil: the true one
	channels   [][]float64
}

func ptr[T any](v T) *T { return &v }

func (f file) encode() []byte {
	samples := f.samples()
	chunk := f.formatChunk()
	var out bytes.Buffer
	le := func(v any) { binary.Write(&out, binary.LittleEndian, v) }
	size := uint32(len(samples))
	if f.claim != nil {
		size = *f.claim
	}
	whole := uint32(4 + 8 + len(chunk) + len(f.before) + 8 + len(samples))
	if f.whole != nil {
		whole = *f.whole
	}
	out.WriteString("RIFF")
	le(whole)
	out.WriteString("WAVEfmt ")
	le(uint32(len(chunk)))
	out.Write(chunk)
	out.Write(f.before)
	out.WriteString("data")
	le(size)
	out.Write(samples)
	return out.Bytes()
}

func (f file) formatChunk() []byte {
	var out bytes.Buffer
	le := func(v any) { binary.Write(&out, binary.LittleEndian, v) }
	tag := uint16(tagPCM)
	if f.float {
		tag = tagFloat
	}
	if f.tag != nil {
		tag = *f.tag
	}
	align := uint16(len(f.channels) * f.bits / 8)
	if f.align != nil {
		align = *f.align
	}
	outer := tag
	if f.extensible {
		outer = tagExtensible
	}
	le(outer)
	le(uint16(len(f.channels)))
	le(uint32(f.rate))
	le(uint32(f.rate * int(align)))
	le(align)
	le(uint16(f.bits))
	if f.extensible {
		le(uint16(22))
		le(uint16(f.valid))
		le(uint32(3))
		le(tag)
		out.WriteString(extensibleTail)
	}
	return out.Bytes()
}

func (f file) samples() []byte {
	if len(f.channels) == 0 {
		return nil
	}
	out := make([]byte, 0, len(f.channels)*len(f.channels[0])*f.bits/8)
	for i := range f.channels[0] {
		for _, c := range f.channels {
			out = f.sample(out, c[i])
		}
	}
	return out
}

func (f file) sample(out []byte, v float64) []byte {
	le := binary.LittleEndian
	switch {
	case f.float && f.bits == 32:
		return le.AppendUint32(out, math.Float32bits(float32(v)))
	case f.float:
		return le.AppendUint64(out, math.Float64bits(v))
	}
	top := math.Exp2(float64(f.bits - 1))
	x := int64(max(-top, min(top-1, math.Round(v*top))))
	for i := range f.bits / 8 {
		out = append(out, byte(x>>(8*i)))
	}
	return out
}

// mono is a 16-bit file of one channel.
func mono(rate int, samples []float64) file {
	return file{rate: rate, bits: 16, channels: [][]float64{samples}}
}

// opened opens a file that must be accepted.
func opened(t testing.TB, data []byte) *Recording {
	t.Helper()
	r, err := Open(bytes.NewReader(data), "fan.wav")
	if err != nil {
		t.Fatalf("Open = %v, want no error", err)
	}
	return r
}

// analysed analyses a file that must be accepted.
func analysed(t testing.TB, f file) *Analysis {
	t.Helper()
	return analysedBytes(t, f.encode())
}

func analysedBytes(t testing.TB, data []byte) *Analysis {
	t.Helper()
	a, err := Analyse(context.Background(), opened(t, data), Options{})
	if err != nil {
		t.Fatalf("Analyse = %v, want no error", err)
	}
	return a
}

// refusal gives the error of a file that must not be accepted.
func refusal(t testing.TB, data []byte) *Error {
	t.Helper()
	r, err := Open(bytes.NewReader(data), "fan.wav")
	if err == nil {
		_, err = Analyse(context.Background(), r, Options{})
	}
	var e *Error
	if !errors.As(err, &e) {
		t.Fatalf("error = %v, want an *Error", err)
	}
	return e
}
