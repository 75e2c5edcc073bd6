package recording

import (
	"bytes"
	"context"
	"errors"
	"io"
	"math/rand/v2"
	"testing"
)

// endless makes a stream of 16-bit noise behind a header, without holding it.
type endless struct {
	header *bytes.Reader
	random *rand.Rand
	left   int
	after  func()
	at     int
}

func newEndless(rate int, seconds float64) *endless {
	f := file{rate: rate, bits: 16, claim: ptr(uint32(notStated)), channels: [][]float64{{}}}
	return &endless{header: bytes.NewReader(f.encode()), random: rand.New(rand.NewPCG(1, 1)), left: 2 * int(float64(rate)*seconds)}
}

func (e *endless) Read(p []byte) (int, error) {
	if n, err := e.header.Read(p); err == nil {
		return n, nil
	}
	if e.left < 2 {
		return 0, io.EOF
	}
	if e.after != nil && e.left < e.at {
		e.after()
		e.after = nil
	}
	n := min(len(p), e.left) &^ 1
	for i := 0; i+8 <= n; i += 8 {
		x := e.random.Uint64() & 0x0fff0fff0fff0fff
		for k := range 8 {
			p[i+k] = byte(x >> (8 * k))
		}
	}
	e.left -= n
	return n, nil
}

// Ten minutes take hardly more memory than ten seconds.
func TestMemoryIsBounded(t *testing.T) {
	analyse := func(seconds float64) (used uint64, a *Analysis) {
		used = allocated(func() {
			r, err := Open(newEndless(16000, seconds), "long.wav")
			if err == nil {
				a, err = Analyse(context.Background(), r, Options{})
			}
			if err != nil {
				t.Fatal(err)
			}
		})
		return used, a
	}
	short, _ := analyse(10)
	long, a := analyse(600)
	if a.Duration != 600 || len(a.Trace.Levels) < 599 {
		t.Errorf("%v s with %d seconds of trace, want 600", a.Duration, len(a.Trace.Levels))
	}
	if short > 4<<20 || long > short+64<<10 {
		t.Errorf("10 s take %d bytes, 10 min %d, want at most 4 MiB and 64 KiB more", short, long)
	}
}

func TestCancelled(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	e := newEndless(16000, 120)
	e.at, e.after = e.left-20*32000, cancel
	from := e.left
	r, err := Open(e, "long.wav")
	if err != nil {
		t.Fatal(err)
	}
	if _, err = Analyse(ctx, r, Options{}); !errors.Is(err, context.Canceled) {
		t.Errorf("error %v, want context.Canceled", err)
	}
	if read := from - e.left; read > 22*32000 {
		t.Errorf("%d bytes read, want to stop soon after %d", read, 20*32000)
	}
	ctx, cancel = context.WithCancel(context.Background())
	cancel()
	r, _ = Open(newEndless(16000, 120), "long.wav")
	if _, err = Analyse(ctx, r, Options{From: 100}); !errors.Is(err, context.Canceled) {
		t.Errorf("while passing over: error %v, want context.Canceled", err)
	}
}
