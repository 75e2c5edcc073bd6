package sample

import (
	"context"
	"fmt"
	"math"
	"strings"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
	"lowsone/match"
)

// Explain walks row as match.Explain does, each result with the range that holds
// 10 to 90 % of what it may be, to its place by what it keeps with the
// confidence. A fan that was not drawn keeps its nominal place. Errors are those
// of Rank.
func Explain(ctx context.Context, source catalog.Fans, req match.Request, row int, o Options) (*match.Explanation, error) {
	o, err := o.filled()
	if err != nil {
		return nil, err
	}
	out, err := match.Explain(ctx, source, req, row)
	if err != nil {
		return nil, err
	}
	study, err := looked(ctx, source, req, o.Most, 0)
	if err != nil {
		return nil, err
	}
	d, err := drawDevices(study, o.Draws, o.Seed)
	if err != nil {
		return nil, err
	}
	fans, err := askFans(ctx, study, d, o)
	if err != nil {
		return nil, err
	}
	b := bandsOf(study, d)
	for i := range fans {
		if fans[i].contender.Row == row && fans[i].contender.Fitted == (row == req.Path.Row) {
			b.fan(&fans[i], d)
			b.place(out, fans, i, o)
			break
		}
	}
	b.tell(out)
	return out, nil
}

// bands are the bands of what an explanation tells.
type bands struct {
	of    map[match.Topic]string
	spots []string
}

func bandsOf(study *match.Study, d *devices) *bands {
	a := airOf(d, study.Need())
	return &bands{of: map[match.Topic]string{
		match.TopicPresent:    flowBand(a.Now),
		match.TopicNeed:       flowBand(a.Need),
		match.TopicResistance: inWords(a.Loss, "Pa"),
	}}
}

// fan adds the bands of one fan.
func (b *bands) fan(f *fan, d *devices) {
	s := f.sure(d)
	full := make([]float64, len(f.outcomes))
	for k, o := range f.outcomes {
		full[k] = o.Full
	}
	b.of[match.TopicFull] = flowBand(bandOf(full))
	if said := inWords(scaled(s.Needed.Ratio, 100), "%"); said != "" {
		b.of[match.TopicSpeed] = said + ", held between its lowest and its full speed"
	}
	b.of[match.TopicLevel] = inWords(s.Needed.Level, "dB(A)")
	for _, t := range s.Planned.Spots {
		b.spots = append(b.spots, inWords(t, "°C"))
	}
}

// place says in the last step what the fan keeps, and where that puts it.
func (b *bands) place(out *match.Explanation, fans []fan, i int, o Options) {
	f := &fans[i]
	for k := range out.Steps {
		s := &out.Steps[k]
		if s.About != match.TopicOrder {
			continue
		}
		s.Formula = fmt.Sprintf("whole dB kept in %s %% of the draws, then how surely the flow is moved, then the nominal order: %s", match.Plain(100*o.Confidence), s.Formula)
		kept := "the needed flow is not kept so surely"
		if !math.IsInf(f.level, 1) {
			kept = fmt.Sprintf("%.1f dB(A) kept", f.level)
		}
		s.Numbers = fmt.Sprintf("%s; it moves the needed flow in %s %% of the draws; nominally %s", kept, match.Plain(100*f.kept), s.Numbers)
		s.Result = fmt.Sprintf("rank %d; nominally %s", i+1, s.Result)
	}
	out.Against = against(fans, i)
	if rest, ok := strings.CutPrefix(out.Outcome, fmt.Sprintf("ranked %d ", f.index+1)); ok {
		out.Outcome = fmt.Sprintf("ranked %d with %s %% confidence, nominally %d %s", i+1, match.Plain(100*o.Confidence), f.index+1, rest)
	}
}

// against says what puts fan i behind the first, or the first before the second.
func against(fans []fan, i int) string {
	if len(fans) < 2 {
		return ""
	}
	f, other, name := &fans[i], &fans[0], "the first"
	if i == 0 {
		other, name = &fans[1], "the second"
	}
	keeps := func(f *fan) string {
		if math.IsInf(f.level, 1) {
			return "does not move the needed flow surely enough"
		}
		return fmt.Sprintf("keeps %.1f dB(A)", f.level)
	}
	return fmt.Sprintf("it %s and moves the needed flow in %s %% of the cases drawn; %s, %s, %s and %s %%",
		keeps(f), match.Plain(math.Round(1000*f.kept)/10), name, other.contender.Part, keeps(other), match.Plain(math.Round(1000*other.kept)/10))
}

// tell puts the bands beside the results.
func (b *bands) tell(out *match.Explanation) {
	spot := 0
	for k := range out.Steps {
		s := &out.Steps[k]
		if s.About == match.TopicHeat {
			if spot < len(b.spots) {
				s.Band = b.spots[spot]
			}
			spot++
			continue
		}
		s.Band = b.of[s.About]
	}
}

func flowBand(b Band) string {
	return inWords(scaled(b, float64(1/quantity.CubicMetrePerHour)), "m³/h")
}

func scaled(b Band, by float64) Band { return Band{b.Low * by, b.Middle * by, b.High * by} }

func inWords(b Band, unit string) string {
	switch {
	case math.IsNaN(b.Middle):
		return ""
	case math.IsInf(b.Middle, 1):
		return "no flow is enough in half of the draws or more"
	case math.IsInf(b.High, 1):
		return fmt.Sprintf("%s %s and more, in some draws no flow is enough, middle %s", match.Plain(b.Low), unit, match.Plain(b.Middle))
	}
	return fmt.Sprintf("%s to %s %s, middle %s", match.Plain(b.Low), match.Plain(b.High), unit, match.Plain(b.Middle))
}
