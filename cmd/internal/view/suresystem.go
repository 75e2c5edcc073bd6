package view

import (
	"fmt"
	"math"
	"strings"

	"lowsone/match/sample"
)

// sureFacts tells how sure the device is.
func (d *System) sureFacts() facts {
	var f facts
	if d.Unsure != "" {
		f.add("contradiction", d.Unsure)
	}
	s := d.Sure
	if s == nil {
		return f
	}
	var said []string
	if d.drawsSayMore() { // else the band of the way says it
		said = append(said, "present flow "+spanText(scaledBand(s.Now, perHour), 1)+" m³/h")
	}
	if d.NeedFrom != "" {
		said = append(said, "needed flow "+spanText(scaledBand(s.Need, perHour), 1)+" m³/h")
	}
	if !math.IsNaN(s.Level.Middle) {
		said = append(said, "level of the fitted fan "+spanText(s.Level, 1)+" dB(A)")
	}
	if !math.IsNaN(s.Over.Middle) {
		said = append(said, "hottest spot at the worst "+againstLimit(s.Over))
	}
	if len(said) > 0 {
		f.add("sure", fmt.Sprintf("in 8 of 10 of %d draws of what is not certain: %s", s.Draws, strings.Join(said, "; ")))
	}
	if said := outside(d.System.Q, s.Now); said != "" && d.System.Located {
		f.add("doubt", said)
	}
	if said := causesText(s.Causes, "the fitted fan"); said != "" {
		f.add("hangs on", said)
	}
	return append(f, adviceFacts(s.Advice, "its level")...)
}

// againstLimit tells how far a spot lies from its limit, in K; below 0 is below it.
func againstLimit(over sample.Band) string {
	switch {
	case over.High <= 0:
		return spanText(sample.Band{Low: -over.High, High: -over.Low}, 1) + " K below its limit"
	case over.Low >= 0:
		return spanText(over, 1) + " K above its limit"
	}
	return Fixed(-over.Low, 1) + " K below to " + Fixed(over.High, 1) + " K above its limit"
}

// drawsSayMore says whether the present flow is less or otherwise sure than the
// band of its way has it: that knows nothing of the fitted fan's own curve and
// speed, nor of other ways.
func (d *System) drawsSayMore() bool {
	now, s := d.Sure.Now, d.System
	return math.Abs(now.Low-s.LowQ) > sameEnd*s.Q || math.Abs(now.High-s.HighQ) > sameEnd*s.Q
}

// sameEnd is the share of the flow by which two ends of a range may differ and
// still be told once.
const sameEnd = 0.03

// outside says that the flow as given lies outside what all that was measured
// says together.
func outside(nominal float64, now sample.Band) string {
	if nominal >= now.Low && nominal <= now.High || math.IsNaN(now.Middle) {
		return ""
	}
	return fmt.Sprintf("all that was measured together puts the present flow at %s m³/h; the single figures follow the first way alone, %s: measure again what disagrees", spanText(scaledBand(now, perHour), 1), flowText(nominal))
}

func scaledBand(b sample.Band, by float64) sample.Band {
	return sample.Band{Low: b.Low * by, Middle: b.Middle * by, High: b.High * by}
}

// systemSureJSON says how sure a device is.
type systemSureJSON struct {
	Draws   int              `json:"draws"`
	Dropped int              `json:"contradicting_draws"`
	Need    rangeJSON        `json:"need_flow_m3h"`
	Now     rangeJSON        `json:"present_flow_m3h"`
	Loss    rangeJSON        `json:"pressure_at_need_pa"`
	Level   *rangeJSON       `json:"level_dba,omitempty"`
	Over    *rangeJSON       `json:"hottest_over_limit_k,omitempty"`
	Causes  List[causeJSON]  `json:"variance_shares"`
	Advice  *adviceJSON      `json:"measure_next,omitempty"`
	Further List[adviceJSON] `json:"measure"`
}

func systemSure(s *sample.System) *systemSureJSON {
	if s == nil {
		return nil
	}
	j := &systemSureJSON{
		Draws: s.Draws, Dropped: s.Dropped, Need: rangeOf(s.Need, perHour), Now: rangeOf(s.Now, perHour), Loss: rangeOf(s.Loss, 1),
		Causes: causesJSON(s.Causes), Advice: firstAdvice(s.Advice), Further: advicesOf(s.Advice),
	}
	if !math.IsNaN(s.Level.Middle) {
		level := rangeOf(s.Level, 1)
		j.Level = &level
	}
	if !math.IsNaN(s.Over.Middle) {
		over := rangeOf(s.Over, 1)
		j.Over = &over
	}
	return j
}

// spanText gives a range in a sentence.
func spanText(b sample.Band, decimals int) string {
	low, high := Fixed(b.Low, decimals), Fixed(b.High, decimals)
	if low == high {
		return low
	}
	return low + " to " + high
}
