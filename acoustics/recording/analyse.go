package recording

import (
	"context"
	"fmt"
	"math"

	"lowsone/acoustics"
	"lowsone/catalog/quantity"
)

// Shortest is the least that is analysed, in s. Below, a window does not fit.
const Shortest quantity.Time = 2

// Options choose a part of a recording, such as one without the push of a button
// and without voices. The zero value takes all.
type Options struct {
	From quantity.Time // begin here
	To   quantity.Time // end here; 0: at the end
}

// Analyse goes through the samples of a recording once. Memory does not hang on
// how long it is, but for 8 bytes a second.
//
// What it refuses comes as an [*Error]: less than two seconds, nothing but
// silence, samples that are no numbers, a file that fails. A cancelled context
// comes as its own error. What merely limits the result is a [Finding].
func Analyse(ctx context.Context, r *Recording, opts Options) (*Analysis, error) {
	if r.frames > 0 || r.over {
		return nil, r.fail(ErrRead, "open it again", "the recording has been gone through already")
	}
	p := &pass{r: r, window: windowLength(r.format.Rate), meter: newMeter(r.format.Rate)}
	for range r.format.Channels {
		p.health = append(p.health, newHealth(r.format))
		p.next = append(p.next, make([]float64, p.window))
	}
	if err := p.span(opts); err != nil {
		return nil, err
	}
	if err := p.skip(ctx); err != nil {
		return nil, err
	}
	if err := p.run(ctx); err != nil {
		return nil, err
	}
	return p.analysis(opts)
}

// pass is one way through a recording.
type pass struct {
	r       *Recording
	window  int      // samples of a window
	windows *windows // made once there is a whole one
	meter   *meter
	health  []*health
	from    int64 // samples to pass over
	left    int64 // samples that may still be read
	taken   int64
	next    [][]float64
}

// span turns the options into samples.
func (p *pass) span(opts Options) error {
	from, to := float64(opts.From), float64(opts.To)
	if !(from >= 0) || !(to >= 0) || math.IsInf(from+to, 0) {
		return p.r.fail(ErrSpan, "", "cannot analyse from %g s to %g s", from, to)
	}
	if to != 0 && to-from < float64(Shortest) {
		return p.r.fail(ErrSpan, "choose a longer part", "from %g s to %g s is less than %g s", from, to, float64(Shortest))
	}
	rate := float64(p.r.format.Rate)
	p.from, p.left = samplesIn(from, rate), math.MaxInt64
	if to != 0 {
		p.left = samplesIn(to, rate)
	}
	return nil
}

// samplesIn gives how many samples last for a time, at most those a file can
// hold.
func samplesIn(seconds, rate float64) int64 { return int64(min(seconds*rate, maxSound)) }

// skip passes over what comes before the part that was chosen.
func (p *pass) skip(ctx context.Context) error {
	for p.from > p.r.frames && !p.r.over {
		if err := ctx.Err(); err != nil {
			return err
		}
		if _, _, err := p.more(int(min(int64(p.window), p.from-p.r.frames))); err != nil {
			return err
		}
	}
	return nil
}

// run takes a whole window first, then half a window at a time, and at the end
// what is left.
func (p *pass) run(ctx context.Context) error {
	want := p.window
	for {
		if err := ctx.Err(); err != nil {
			return err
		}
		next, n, err := p.more(want)
		if err != nil {
			return err
		}
		p.taken += int64(n)
		if n == 0 || p.taken < int64(p.window) {
			p.meter.finish()
			return nil // the end, or too short: enough tells
		}
		p.take(next, n)
		want = p.window / 2
	}
}

func (p *pass) take(next [][]float64, n int) {
	if p.windows == nil {
		p.windows = newWindows(p.r.format.Rate, len(next))
	}
	for c, samples := range next {
		p.health[c].take(samples)
	}
	p.windows.add(next)
	p.meter.take(p.windows.take(n))
}

// more reads the next samples, at most want of each channel.
func (p *pass) more(want int) (next [][]float64, n int, err error) {
	want = int(min(int64(want), p.left))
	for c := range p.next {
		p.next[c] = p.next[c][:want]
	}
	if n, err = p.r.read(p.next); err != nil {
		return nil, 0, err
	}
	for c := range p.next {
		p.next[c] = p.next[c][:n]
	}
	p.left -= int64(n)
	return p.next, n, nil
}

// analysis puts together what was measured.
func (p *pass) analysis(opts Options) (*Analysis, error) {
	rate := float64(p.r.format.Rate)
	a := &Analysis{
		Name: p.r.name, Format: p.r.format,
		Duration: quantity.Time(float64(p.taken) / rate),
		step:     rate / float64(p.window),
	}
	if err := p.enough(a.Duration, opts); err != nil {
		return nil, err
	}
	active := p.channels(a)
	if active == 0 {
		return nil, p.r.fail(ErrSilent, "check the microphone and its level", "the recording is silent: its samples differ by less than −150 dB re full scale, below what any microphone gives")
	}
	a.power = p.windows.spectrum()
	for k := range a.power {
		a.power[k] /= float64(active)
	}
	p.levels(a, float64(active), opts.From)
	a.Thirds, a.filtered = thirdsOf(a.power, a.step), filteredThirds(a.power, a.step)
	a.C = ofPower(weightedSum(a.power, a.step, acoustics.CWeighting))
	a.Overall = ofPower(weightedSum(a.power, a.step, unweighted))
	if err := a.findTones(); err != nil {
		e := p.r.fail(ErrSample, "", "%v", err)
		e.Cause = err
		return nil, e
	}
	a.Findings = findings(a, p.r, opts)
	return a, nil
}

// enough refuses what is too short.
func (p *pass) enough(d quantity.Time, opts Options) error {
	switch {
	case d >= Shortest:
		return nil
	case opts.From > 0 || opts.To > 0:
		return p.r.fail(ErrSpan, "choose another part", "from %g s on only %.3g s are left, %g s are the least", float64(opts.From), float64(d), float64(Shortest))
	case p.r.missing() > 0:
		return p.r.fail(ErrTooShort, "record or copy it again", "only %.3g s are there, %g s are the least; the header claims %.3g s more", float64(d), float64(Shortest), float64(p.r.missing()))
	}
	return p.r.fail(ErrTooShort, "record 20 s or more", "only %.3g s long, %g s are the least", float64(d), float64(Shortest))
}

// channels says how each channel fared, and how many are not silent.
func (p *pass) channels(a *Analysis) (active int) {
	for c, h := range p.health {
		h.endRun()
		ch := Channel{
			Level: ofPower(p.windows.lanes[c] / float64(p.windows.lasting)),
			Peak:  h.peak(), Offset: h.offset(), Silent: h.silent(),
			Clipped: Clipping{Share: float64(h.clipped) / float64(h.count), Runs: h.runs, Longest: h.longest},
		}
		if ch.Silent {
			ch.Level = ofPower(0)
		} else {
			active++
		}
		a.Channels = append(a.Channels, ch)
	}
	return active
}

// levels reads the meter, which began at from. It has summed over the channels;
// the mean is wanted.
func (p *pass) levels(a *Analysis, active float64, from quantity.Time) {
	m, one := p.meter, 10*math.Log10(active)
	start := float64(from) + float64(p.window)/4/m.rate
	a.Level = Levels{
		Equivalent: ofPower(m.total / float64(m.count) / active),
		Max:        ofPower(m.loudest / active),
		MaxAt:      quantity.Time(start + float64(m.when)/m.rate),
		L10:        FullScale{m.exceeded(0.10) - one},
		L50:        FullScale{m.exceeded(0.50) - one},
		L90:        FullScale{m.exceeded(0.90) - one},
	}
	a.Trace = Trace{Start: quantity.Time(start), Step: 1}
	for _, power := range m.second {
		a.Trace.Levels = append(a.Trace.Levels, ofPower(power/active))
	}
}

func (r *Recording) fail(kind error, hint, format string, args ...any) *Error {
	return &Error{File: r.name, Reason: fmt.Sprintf(format, args...), Hint: hint, Err: kind}
}
