package cli

import (
	"encoding/json"
	"errors"
	"io"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"lowsone/cmd/internal/view"
	"lowsone/match"
)

// heardJSON is what these tests read of the object of listen.
type heardJSON struct {
	Recordings []struct {
		Scale    float64 `json:"full_scale_is_db"`
		Loudness *struct {
			Sone float64 `json:"sone"`
		} `json:"loudness"`
		NotLoud string `json:"loudness_not_known"`
		Ratings []struct {
			Value *float64 `json:"value"`
			Why   string   `json:"not_known"`
		} `json:"ratings"`
		SP *struct {
			Level float64 `json:"leq_dba"`
		} `json:"sound_pressure"`
		Series []struct {
			Hz      float64   `json:"hz"`
			Orders  []float64 `json:"multiples"`
			Maker   string    `json:"made_by"`
			Fan     string    `json:"fan"`
			Or      []string  `json:"or_fan"`
			Blades  float64   `json:"blades"`
			Guessed bool      `json:"blades_guessed"`
			Speed   float64   `json:"speed_rpm"`
		} `json:"series"`
		Findings []struct {
			Kind string `json:"finding"`
		} `json:"findings"`
	} `json:"recordings"`
	Beats []struct {
		Unsure bool `json:"speeds_not_measured"`
	} `json:"beats"`
	Open   []string `json:"not_known"`
	Change *struct {
		Level  float64  `json:"level_difference_db"`
		Doubts []string `json:"doubts"`
		Loud   *struct {
			Ratio float64 `json:"ratio"`
		} `json:"loudness"`
	} `json:"change"`
}

// listenTo runs listen in a folder of its own with recordings by name.
func listenTo(t *testing.T, sounds map[string]string, line string) heardJSON {
	t.Helper()
	t.Chdir(t.TempDir())
	for name, words := range sounds {
		data := []byte(words)
		if strings.HasSuffix(name, ".wav") {
			data = parseSound(t, words).encode()
		}
		write(t, name, string(data))
	}
	out, errs, code := run(t, strings.NewReader(""), map[string]string{"LOWSONE_CATALOG": "none"}, strings.Fields("listen --format json "+line)...)
	if code != exitDone {
		t.Fatalf("lowsone listen %s: exit %d: %s", line, code, errs)
	}
	var heard heardJSON
	if err := json.Unmarshal([]byte(out), &heard); err != nil {
		t.Fatal(err)
	}
	return heard
}

const heardFans = `
device: two fans
paths:
  - name: left
    fan: {name: a, voltage_v: 12, airflow_m3h: 48, static_pressure_pa: 120, blades: 7}
    speed: 2050 rpm
  - name: right
    fan: {name: b, voltage_v: 12, airflow_m3h: 48, static_pressure_pa: 120}
    speed: 1800 rpm
`

// The case of a workshop: 245 Hz and its double are 7 blades at 2100 rpm, the fan
// of that speed; 270 Hz are 9 blades at 1800 rpm, which nobody counted.
func TestListenFindsTheFan(t *testing.T) {
	heard := listenTo(t, map[string]string{
		"fan.wav":  "seconds=6 noise=-50 tone=245@-36 tone=490@-40 tone=270@-38 tone=1777@-50",
		"two.yaml": heardFans,
	}, "fan.wav two.yaml --level 52dBA")
	r := heard.Recordings[0]
	if r.SP == nil || math.Abs(r.SP.Level-52) > 1e-6 || r.Loudness == nil || r.Loudness.Sone < 1 {
		t.Errorf("level and loudness are %+v, %+v, want 52 dB(A) as shown", r.SP, r.Loudness)
	}
	if len(r.Series) != 3 {
		t.Fatalf("%d series, want 3: %+v", len(r.Series), r.Series)
	}
	left, right, whine := r.Series[0], r.Series[1], r.Series[2]
	if left.Maker != "fan" || left.Fan != "left" || left.Blades != 7 || left.Guessed || math.Abs(left.Speed-2100) > 2 || len(left.Orders) != 2 {
		t.Errorf("245 Hz: %+v, want 7 blades at 2100 rpm of left, with a double", left)
	}
	if right.Maker != "fan" || right.Fan != "right" || right.Blades != 9 || !right.Guessed || math.Abs(right.Speed-1800) > 2 {
		t.Errorf("270 Hz: %+v, want 9 blades at 1800 rpm of right, guessed", right)
	}
	if whine.Maker != "unknown" || whine.Fan != "" {
		t.Errorf("1777 Hz: %+v, want it unknown", whine)
	}
}

// One tone that two fans may make, their speeds known by label only, is given to
// one with the other named beside it, and tells the speed of neither.
func TestListenIsNotSurerThanItMayBe(t *testing.T) {
	alike := strings.NewReplacer("    speed: 2050 rpm\n", "", "    speed: 1800 rpm\n", "",
		"blades: 7}", "speed_rpm: 2050, blades: 7}", "120}", "120, speed_rpm: 2150, blades: 7}").Replace(heardFans)
	heard := listenTo(t, map[string]string{"fan.wav": "seconds=4 noise=-50 tone=245@-36", "alike.yaml": alike}, "fan.wav alike.yaml")
	s := heard.Recordings[0].Series
	if len(s) != 1 || s[0].Maker != "fan" || len(s[0].Or) != 1 || s[0].Or[0] == s[0].Fan {
		t.Fatalf("series %+v, want one of left or right", s)
	}
	if len(heard.Beats) != 1 || !heard.Beats[0].Unsure {
		t.Errorf("beats %+v, want one that is not sure", heard.Beats)
	}
	if open := strings.Join(heard.Open, "\n"); strings.Contains(open, "as its tone tells") || !strings.Contains(open, "left, right") {
		t.Errorf("not known: %q, want both speeds", open)
	}
}

// A speed is taken from a tone only where no other fan may make it, and its
// blades are known.
func TestHeardAs(t *testing.T) {
	fans := []match.Turning{turning(7, 2100, false), turning(7, 2050, true), turning(math.NaN(), 1800, true)}
	of := func(fan int, rpm float64) view.Series {
		return view.Series{Series: match.Series{Maker: match.MadeByFan, Fan: fan, Turns: rpm / 60}}
	}
	alone, either, guessed := of(0, 2130), of(0, 2130), of(2, 1790)
	either.Or, guessed.Guessed = []int{1}, true
	for _, r := range []struct {
		name   string
		series view.Series
		rpm    float64 // of the first fan
		sure   bool
	}{{"alone", alone, 2130, true}, {"or another", either, 2100, false}, {"guessed", guessed, 2100, false}} {
		heard := heardAs(fans, []view.Series{r.series})
		if got := 60 * heard[0].Turns; math.Abs(got-r.rpm) > 1e-9 || heard[0].Measured != r.sure || heard[2].Turns != fans[2].Turns {
			t.Errorf("%s: %v rpm, measured %v, want %v, %v", r.name, got, heard[0].Measured, r.rpm, r.sure)
		}
	}
}

// What a low sampling rate takes away is said, not filled in.
func TestListenSaysWhatIsMissing(t *testing.T) {
	heard := listenTo(t, map[string]string{"fan.wav": "rate=16000 seconds=3 noise=-40"}, "fan.wav --level 50dBA")
	r := heard.Recordings[0]
	if r.Loudness != nil || !strings.Contains(r.NotLoud, "8000 Hz") || !strings.Contains(r.NotLoud, "44100") {
		t.Errorf("loudness %+v, not known because %q, want the band and what to do", r.Loudness, r.NotLoud)
	}
	for _, rating := range r.Ratings {
		if rating.Value != nil || rating.Why == "" {
			t.Errorf("rating %+v, want none and why", rating)
		}
	}
}

// A change of gain by 6 dB is a change of 6 dB without a scale, and none with a
// meter reading for each; levels that do not fit one gain are doubted.
func TestListenCompares(t *testing.T) {
	sounds := map[string]string{"before.wav": "seconds=5 noise=-40 seed=2", "after.wav": "seconds=5 noise=-40 seed=3 gain=-6"}
	for _, r := range []struct {
		line  string
		want  float64
		ratio float64 // of loudness; 0: not told
		doubt string
	}{
		{"", -6, 0, ""},
		{" --level 50dBA --level-after 50dBA", 0, 1, ""},
		{" --level 50dBA --same-gain", -6, 0.66, ""},
		{" --level-after 44dBA --same-gain", -6, 0.66, ""},
		{" --level 50dBA --level-after 50dBA --same-gain", 0, 1, "do not fit one gain"},
	} {
		heard := listenTo(t, sounds, "before.wav after.wav"+r.line)
		if got := heard.Change.Level; math.Abs(got-r.want) > 0.2 {
			t.Errorf("listen%s: change %v dB, want %v ± 0.2", r.line, got, r.want)
		}
		switch loud := heard.Change.Loud; {
		case (loud != nil) != (r.ratio != 0):
			t.Errorf("listen%s: loudness %+v, want one only with a scale", r.line, loud)
		case loud != nil && math.Abs(loud.Ratio-r.ratio) > 0.05:
			t.Errorf("listen%s: %v times as loud, want %v ± 0.05", r.line, loud.Ratio, r.ratio)
		}
		if doubts := strings.Join(heard.Change.Doubts, "\n"); !strings.Contains(doubts, r.doubt) || r.doubt == "" && doubts != "" {
			t.Errorf("listen%s: doubts %q, want %q", r.line, doubts, r.doubt)
		}
	}
}

// The spectrum of listen goes into loudness: with its scale as it is, without one
// by the level that is given there.
func TestSpectrumFromListenToLoudness(t *testing.T) {
	t.Chdir(t.TempDir())
	write(t, "fan.wav", string(parseSound(t, "seconds=5 noise=-40").encode()))
	for _, r := range []struct{ listen, loudness string }{
		{"listen fan.wav --format csv --level 47dBA", "loudness bands.csv --format json"},
		{"listen fan.wav --format csv", "loudness bands.csv --format json --level 47dBA"},
	} {
		out, errs, code := run(t, strings.NewReader(""), nil, strings.Fields(r.listen)...)
		if code != exitDone {
			t.Fatalf("lowsone %s: exit %d: %s", r.listen, code, errs)
		}
		write(t, "bands.csv", out)
		out, errs, code = run(t, strings.NewReader(""), nil, strings.Fields(r.loudness)...)
		if code != exitDone {
			t.Fatalf("lowsone %s: exit %d: %s", r.loudness, code, errs)
		}
		var got struct {
			Level float64  `json:"level_dba"`
			Notes []string `json:"notes"`
		}
		if err := json.Unmarshal([]byte(out), &got); err != nil {
			t.Fatal(err)
		}
		if math.Abs(got.Level-47) > 0.2 || len(got.Notes) > 0 {
			t.Errorf("lowsone %s | %s: %v dB(A), notes %q, want 47 ± 0.2 and none", r.listen, r.loudness, got.Level, got.Notes)
		}
	}
}

// failing is a stream that breaks off.
type failing struct{ io.Reader }

func (f failing) Read(p []byte) (int, error) {
	n, err := f.Reader.Read(p)
	if errors.Is(err, io.EOF) {
		err = errors.New("cable pulled")
	}
	return n, err
}

// What cannot be read is refused in words, with nothing raw from the file.
func TestListenRefuses(t *testing.T) {
	t.Chdir(t.TempDir())
	whole := string(parseSound(t, "seconds=3 noise=-40").encode())
	const evil = "\x1b]0;x\x07\u009b31m"
	for name, text := range map[string]string{
		"empty.wav": "", "head.wav": whole[:30], "four.wav": "RIFF" + evil, "bare.wav": whole[:44],
		"big.wav":  whole[:40] + "\xff\xff\xff\x7f" + whole[44:2000],
		"text.bin": "hz,level\n125,40\n", "eight.wav": whole[:34] + "\x08\x00" + whole[36:], evil[:6] + ".wav": "RIFX" + evil,
		"id3.wav": "ID3\x04" + evil, "noise.dat": strings.Repeat("\x80\x01\x07", 500),
	} {
		if err := os.WriteFile(name, []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
		for _, command := range []string{"listen", "loudness", "tones"} {
			out, errs, code := run(t, strings.NewReader(""), nil, command, name)
			if code != exitFailed && code != exitUsage || out != "" || !strings.HasPrefix(errs, "lowsone: ") {
				t.Errorf("lowsone %s %q: exit %d, stdout %q, stderr %q", command, name, code, out, errs)
			}
			if strings.ContainsFunc(errs, func(r rune) bool { return r < ' ' && r != '\n' || r >= 0x7f && r < 0xa0 }) {
				t.Errorf("lowsone %s %q lets control characters through: %q", command, name, errs)
			}
		}
	}
	if _, errs, code := run(t, failing{strings.NewReader(whole[:90000])}, nil, "listen", "-"); code != exitFailed || !strings.Contains(errs, "cable pulled") {
		t.Errorf("a stream that breaks off: exit %d, %q", code, errs)
	}
	write(t, "sound.dat", whole)
	for _, r := range []struct{ args, hint string }{
		{"listen text.bin", "lowsone loudness text.bin"}, {"loudness bare.wav", "lowsone listen bare.wav"}, {"loudness sound.dat", "lowsone listen sound.dat"}, {"tones bare.wav", "lowsone listen bare.wav"},
	} {
		if _, errs, _ := run(t, strings.NewReader(""), nil, strings.Fields(r.args)...); !strings.Contains(errs, r.hint) {
			t.Errorf("lowsone %s: %q, want the hint %q", r.args, errs, r.hint)
		}
	}
}

// The name of a file is shown, and what it holds of control characters is not.
func TestListenShowsNothingRaw(t *testing.T) {
	t.Chdir(t.TempDir())
	name := "\x1b]0;x\x07\u009b31m\u202e\n.wav"
	write(t, name, string(parseSound(t, "rate=16000 seconds=3 title=\x1b[31mred").encode()))
	for _, args := range [][]string{{name}, {name, name}, {name, "--level", "50"}} {
		for _, format := range view.Formats {
			out, errs, code := run(t, strings.NewReader(""), nil, append([]string{"listen", "--format", format}, args...)...)
			if code != exitDone {
				t.Fatalf("exit %d: %s", code, errs)
			}
			if i := strings.IndexFunc(out, func(r rune) bool { return r < ' ' && r != '\n' || r >= 0x7f && r < 0xa0 || r == 0x202e }); i >= 0 {
				t.Errorf("listen as %s lets %q through", format, out[i:min(len(out), i+20)])
			}
		}
	}
}

// In a terminal no line is wider than it, down to 60 columns.
func TestSoundsAtATerminal(t *testing.T) {
	t.Chdir(t.TempDir())
	write(t, "fan.wav", string(parseSound(t, "seconds=4 noise=-50 tone=245@-36 tone=490@-40 tone=8000@-50").encode()))
	write(t, "long.wav", string(parseSound(t, "rate=16000 seconds=70 noise=-50").encode()))
	write(t, "after.wav", string(parseSound(t, "rate=16000 seconds=3 noise=-50 tone=225@-36 tone=6000@-40").encode()))
	write(t, "two.yaml", heardFans)
	write(t, "bands.csv", octavesTable)
	for _, width := range []int{60, 80, 120} {
		vars := map[string]string{"TERMINAL": strconv.Itoa(width), "LOWSONE_CATALOG": "none"}
		for _, line := range []string{
			"listen long.wav", "listen fan.wav two.yaml --level 52dBA --meter class_2", "listen fan.wav after.wav two.yaml --level 52dBA --same-gain --meter phone",
			"loudness bands.csv --background bands.csv", "loudness bands.csv --room-level 25", "tones two.yaml", "tones --blades 5 --speed 4000 --blades 5 --speed 4100",
		} {
			out, errs, code := run(t, strings.NewReader(""), vars, strings.Fields(line)...)
			if code != exitDone {
				t.Errorf("lowsone %s: exit %d: %s", line, code, errs)
			}
			for l := range strings.Lines(visible(out)) {
				l = strings.NewReplacer(`\e[0m`, "", `\e[1m`, "", `\e[2m`, "").Replace(strings.TrimSuffix(l, "\n"))
				if n := len([]rune(l)); n > width {
					t.Errorf("lowsone %s at %d: %d wide: %s", line, width, n, l)
				}
			}
		}
	}
}

// A meter's mean is that of the whole recording: the beginning of one that rises
// lies below it.
func TestListenScalesByTheWhole(t *testing.T) {
	sounds := map[string]string{"fan.wav": "seconds=8 noise=-40 rise=10"}
	whole := listenTo(t, sounds, "fan.wav --level 52dBA").Recordings[0]
	part := listenTo(t, sounds, "fan.wav --level 52dBA --to 3").Recordings[0]
	if math.Abs(part.Scale-whole.Scale) > 1e-9 || part.SP == nil || part.SP.Level > 50 {
		t.Errorf("the first 3 s: scale %v, levels %+v, want the scale %v of the whole and under 50 dB(A)", part.Scale, part.SP, whole.Scale)
	}
	for _, line := range []string{"listen - --level 52dBA --to 3", "listen fan.wav --to 0"} {
		if out, errs, code := run(t, strings.NewReader(""), nil, strings.Fields(line)...); code != exitUsage {
			t.Errorf("lowsone %s: exit %d, %q, %q, want %d", line, code, out, errs, exitUsage)
		}
	}
}
