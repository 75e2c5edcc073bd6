package recording

import (
	"fmt"
	"math"

	"lowsone/acoustics"
)

// Kind is what a finding is about.
type Kind uint8

// The kinds of findings, in the order they are told.
const (
	Truncated      Kind = iota // the file ends before its header says
	LengthUnstated             // the header does not say how long it is
	Part                       // only a part was analysed, as chosen
	Short                      // low bands and tones are uncertain for want of time
	Clipped                    // waves are cut off at full scale
	Weak                       // the steps of the numbers are not far below the sound
	Offset                     // a constant part was left out
	TwoChannels                // levels are the mean of two channels
	OneSilent                  // one of two channels is silent and left out
	Unequal                    // the channels differ much
	BandsMissing               // the sampling rate does not reach the upper bands
	Drifts                     // the level at the end is not that at the beginning
	Jumps                      // something short was much louder
	Swings                     // the level goes up and down
)

var kindNames = [...]string{
	"truncated", "length_unstated", "part", "short", "clipped", "weak", "offset", "two_channels",
	"one_silent", "unequal", "bands_missing", "drifts", "jumps", "swings",
}

// String gives the kind in one word.
func (k Kind) String() string {
	if int(k) < len(kindNames) {
		return kindNames[k]
	}
	return fmt.Sprintf("Kind(%d)", uint8(k))
}

// Doubtful says whether a finding makes the levels doubtful; the others only say
// what was done or is missing.
func (k Kind) Doubtful() bool {
	switch k {
	case Clipped, Weak, Unequal, Drifts, Jumps, Swings:
		return true
	}
	return false
}

// Finding is something about a recording that a person should know.
type Finding struct {
	Kind Kind
	Text string // for people: what it is, and what to do about it
}

// Limits of the findings. All are common practice, or where a person would hear
// it.
const (
	leastMissing = 1e-3 // s, below which no number is told
	shortTime    = 10   // s, below which to warn
	offsetShare  = 1e-3 // of full scale
	offsetPeak   = 0.01 // of the largest sample, which the mean of noise does not reach
	weakMargin   = 15.0 // dB above the noise of the steps
	unequalLevel = 6.0  // dB between two channels
	driftLevel   = 1.5  // dB between the first and the last third
	driftSeconds = 6    // the least to speak of a drift
	jumpLevel    = 6.0  // dB of the loudest above the median
	swingLevel   = 4.0  // dB between L10 and L90
)

// finder gathers findings.
type finder struct {
	a    *Analysis
	list []Finding
}

func (f *finder) say(k Kind, format string, args ...any) {
	f.list = append(f.list, Finding{k, fmt.Sprintf(format, args...)})
}

// findings says what spoils or limits a recording.
func findings(a *Analysis, r *Recording, opts Options) []Finding {
	f := &finder{a: a}
	f.length(r, opts)
	f.clipped()
	f.weak()
	f.offset()
	f.channels()
	f.bands()
	f.steadiness()
	return f.list
}

func (f *finder) length(r *Recording, opts Options) {
	if missing := r.missing(); missing > 0 && missing < leastMissing {
		f.say(Truncated, "the header claims a little more than is there, less than %g s: the file was cut off, or its recorder wrote a size too large", float64(leastMissing))
	} else if missing > 0 {
		f.say(Truncated, "the header claims %.4g s more than are there: the file was cut off, or its recorder never finished it", float64(missing))
	}
	if r.claimed < 0 {
		f.say(LengthUnstated, "the header does not say how long the recording is: read to the end of the file")
	}
	if opts.From > 0 || opts.To > 0 {
		f.say(Part, "analysed are the %.4g s from %.4g s on", float64(f.a.Duration), float64(opts.From))
	}
	if d := f.a.Duration; d < shortTime {
		f.say(Short, "only %.3g s long: in noise the 25 Hz band is uncertain by ±%.1f dB, the 100 Hz band by ±%.1f dB, and weak tones may be missed; record 20 s or more",
			float64(d), float64(f.a.Spread(0)), float64(f.a.Spread(6)))
	}
}

// share writes a percentage to two digits, without an exponent.
func share(percent float64) string {
	switch {
	case percent >= 10:
		return fmt.Sprintf("%.0f", percent)
	case percent < 1e-3:
		return "under 0.001"
	}
	return fmt.Sprintf("%.2g", percent)
}

func (f *finder) clipped() {
	for c, ch := range f.a.Channels {
		if ch.Clipped.Runs > 0 {
			f.say(Clipped, "%sclipped: %s %% of the samples stand at full scale, %d times three or more in a row: levels are too low and some tones are false; record again with less gain",
				f.channel(c), share(100*ch.Clipped.Share), ch.Clipped.Runs)
		}
	}
}

// weak finds a sound so weak that the noise of the steps of its numbers, q²/12
// for steps of q, may be part of what is measured. A recorder's own noise may be
// more.
func (f *finder) weak() {
	format := f.a.Format
	if format.Float {
		return
	}
	step := format.step()
	if steps := ofPower(step * step / 12); f.a.Level.Equivalent.db < steps.db+weakMargin {
		f.say(Weak, "the recording is so weak (%.0f dB re full scale) that the steps of %d bits may be part of what was measured; record again with more gain or nearer",
			f.a.Level.Equivalent.db, format.valid)
	}
}

func (f *finder) offset() {
	for c, ch := range f.a.Channels {
		if off := math.Abs(ch.Offset); off > max(offsetShare, offsetPeak*ch.Peak) && !ch.Silent {
			f.say(Offset, "%sa constant offset of %.2g %% of full scale was left out", f.channel(c), 100*ch.Offset)
		}
	}
}

// channel names a channel of two.
func (f *finder) channel(c int) string {
	if len(f.a.Channels) == 1 {
		return ""
	}
	return channelNames[c] + " channel: "
}

var channelNames = [...]string{"left", "right"}

func (f *finder) channels() {
	if len(f.a.Channels) != 2 {
		return
	}
	left, right := f.a.Channels[0], f.a.Channels[1]
	switch apart := float64(left.Level.Above(right.Level)); {
	case left.Silent:
		f.say(OneSilent, "the left channel is silent: the right one alone was analysed")
	case right.Silent:
		f.say(OneSilent, "the right channel is silent: the left one alone was analysed")
	case math.Abs(apart) > unequalLevel:
		louder, weaker := channelNames[0], channelNames[1]
		if apart < 0 {
			louder, weaker = weaker, louder
		}
		f.say(Unequal, "levels are the energy mean of two channels, and the %s one is %.0f dB above the %s: was a microphone covered, or is one nearer to the fan?",
			louder, math.Abs(apart), weaker)
	default:
		f.say(TwoChannels, "levels are the energy mean of the two channels")
	}
}

func (f *finder) bands() {
	for i, l := range f.a.Thirds {
		if math.IsNaN(l.db) {
			f.say(BandsMissing, "sampled %g times a second: the bands from %g Hz up are not known; record with 44100 Hz or more",
				float64(f.a.Format.Rate), acoustics.ThirdNominal[i])
			return
		}
	}
}

// steadiness finds a level that changes: by and by, for a moment, or all the
// time. What drifts also swings, so that is not told twice.
func (f *finder) steadiness() {
	drift, ok := f.a.Trace.drift()
	drifts := ok && math.Abs(drift) > driftLevel
	if drifts {
		word := "rises"
		if drift < 0 {
			word = "falls"
		}
		f.say(Drifts, "the level %s by %s dB from the first third of the recording to the last: record again once the fan is steady", word, above(math.Abs(drift)))
	}
	level := f.a.Level
	if jump := float64(level.Max.Above(level.L50)); jump > jumpLevel {
		f.say(Jumps, "at %.1f s it was %s dB louder than mostly: a voice, a knock or a button; choose a part without it, or record again", float64(level.MaxAt), above(jump))
	}
	if swing := float64(level.L10.Above(level.L90)); swing > swingLevel && !drifts {
		f.say(Swings, "the level goes up and down by %s dB: fans that beat, a fan whose speed hunts, or other sounds; a single level does not say much", above(swing))
	}
}

// above writes a difference of levels, which may be without end.
func above(db float64) string {
	if db > 99 {
		return "over 99"
	}
	return fmt.Sprintf("%.1f", db)
}

// drift gives by how much the last third of a trace lies above the first, as
// energies, and whether the trace is long enough to say.
func (t Trace) drift() (float64, bool) {
	n := len(t.Levels) / 3
	if len(t.Levels) < driftSeconds {
		return 0, false
	}
	return meanLevel(t.Levels[len(t.Levels)-n:]).db - meanLevel(t.Levels[:n]).db, true
}

// meanLevel gives the energy mean of levels.
func meanLevel(levels []FullScale) FullScale {
	sum := 0.0
	for _, l := range levels {
		sum += ratio(l.db)
	}
	return ofPower(sum / float64(len(levels)))
}
