package cli

import (
	"encoding/binary"
	"fmt"
	"math"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"
)

// sound is an invented recording, made anew for each test: a fan's noise with
// tones. Its text form stands in sessions behind "%wav".
type sound struct {
	rate    int
	seconds float64
	noise   float64 // rms in dB re full scale; falls by 6 dB an octave above corner
	tones   []soundTone
	seed    uint64
	offset  float64 // share of full scale
	gain    float64 // dB on all; what then passes full scale is clipped
	stereo  bool    // the right channel is silent
	rise    float64 // dB from the beginning to the end
	title   string  // in a LIST chunk before the samples
	lost    int     // bytes missing at the end
}

type soundTone struct{ hz, db float64 }

// corner is the frequency in Hz above which the noise falls.
const corner = 500

// parseSound reads words such as "rate=44100 seconds=6 noise=-40 tone=245@-45".
func parseSound(t testing.TB, text string) sound {
	s := sound{rate: 44100, seconds: 5, noise: -40, seed: 1}
	for _, word := range strings.Fields(text) {
		name, value, _ := strings.Cut(word, "=")
		number := func(text string) float64 {
			v, err := strconv.ParseFloat(text, 64)
			if err != nil {
				t.Fatalf("%%wav: %s: %v", word, err)
			}
			return v
		}
		switch name {
		case "rate":
			s.rate = int(number(value))
		case "seconds":
			s.seconds = number(value)
		case "noise":
			s.noise = number(value)
		case "seed":
			s.seed = uint64(number(value))
		case "offset":
			s.offset = number(value)
		case "gain":
			s.gain = number(value)
		case "rise":
			s.rise = number(value)
		case "lost":
			s.lost = int(number(value))
		case "stereo":
			s.stereo = true
		case "title":
			s.title = value
		case "tone":
			hz, db, _ := strings.Cut(value, "@")
			s.tones = append(s.tones, soundTone{number(hz), number(db)})
		default:
			t.Fatalf("%%wav: %q is not known", word)
		}
	}
	return s
}

// samples gives one channel.
func (s sound) samples() []float64 {
	random := rand.New(rand.NewPCG(s.seed, 7))
	keep := math.Exp(-2 * math.Pi * corner / float64(s.rate))
	scale := amplitude(s.noise) * math.Sqrt((1+keep)/(1-keep))
	out := make([]float64, int(s.seconds*float64(s.rate)))
	low := 0.0
	for i := range out {
		at := float64(i) / float64(s.rate)
		low = keep*low + (1-keep)*random.NormFloat64()
		v := scale * low
		for _, tone := range s.tones {
			v += math.Sqrt2 * amplitude(tone.db) * math.Sin(2*math.Pi*tone.hz*at)
		}
		out[i] = s.offset + v*amplitude(s.gain+s.rise*at/s.seconds)
	}
	return out
}

func amplitude(db float64) float64 { return math.Pow(10, db/20) }

// encode gives the recording as a WAV file of 16-bit PCM.
func (s sound) encode() []byte {
	channels := 1
	if s.stereo {
		channels = 2
	}
	var data []byte
	for _, v := range s.samples() {
		data = binary.LittleEndian.AppendUint16(data, uint16(int16(math.Round(32767*max(-1, min(1, v))))))
		if s.stereo {
			data = append(data, 0, 0)
		}
	}
	var body []byte
	le := binary.LittleEndian
	body = append(body, "WAVEfmt "...)
	body = le.AppendUint32(body, 16)
	body = le.AppendUint16(body, 1)
	body = le.AppendUint16(body, uint16(channels))
	body = le.AppendUint32(body, uint32(s.rate))
	body = le.AppendUint32(body, uint32(s.rate*2*channels))
	body = le.AppendUint16(body, uint16(2*channels))
	body = le.AppendUint16(body, 16)
	if s.title != "" {
		text := s.title + strings.Repeat("\x00", 1+(len(s.title)+1)%2)
		body = append(body, "LIST"...)
		body = le.AppendUint32(body, uint32(12+len(text)))
		body = append(body, "INFOINAM"...)
		body = le.AppendUint32(body, uint32(len(text)))
		body = append(body, text...)
	}
	body = append(body, "data"...)
	body = le.AppendUint32(body, uint32(len(data)))
	body = append(body, data...)
	file := le.AppendUint32([]byte("RIFF"), uint32(len(body)))
	file = append(file, body...)
	return file[:len(file)-s.lost]
}

// TestSoundIsWhatItSays holds the recordings of the tests against their own
// words: the rms of the noise, and that of a tone.
func TestSoundIsWhatItSays(t *testing.T) {
	for _, r := range []struct {
		text string
		want float64 // rms in dB re full scale
	}{
		{"seconds=20 noise=-40", -40},
		{"seconds=4 noise=-90 tone=245@-30", -30},
		{"seconds=4 noise=-90 tone=245@-30 gain=6", -24},
	} {
		sum, samples := 0.0, parseSound(t, r.text).samples()
		for _, v := range samples {
			sum += v * v
		}
		if got := 10 * math.Log10(sum/float64(len(samples))); math.Abs(got-r.want) > 0.3 {
			t.Errorf("rms of %q = %s dB, want %v ± 0.3", r.text, fmt.Sprintf("%.2f", got), r.want)
		}
	}
}
