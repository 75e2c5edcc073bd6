package view

import (
	"io"

	"lowsone/catalog"
	"lowsone/match"
)

// Explanation walks one fan from its label to its place.
type Explanation struct {
	Fan         *catalog.Fan
	Explanation *match.Explanation
	Slow        *Slow // the means of running it at the needed flow; nil where it is not slowed
}

type stepJSON struct {
	Number   int    `json:"step"`
	Title    string `json:"title"`
	Formula  string `json:"formula,omitempty"`
	Numbers  string `json:"numbers,omitempty"`
	Result   string `json:"result,omitempty"`
	Source   string `json:"source,omitempty"`
	Estimate bool   `json:"estimate"`
	Band     string `json:"p10_to_p90,omitempty"`
}

// JSON gives the object of rank --explain.
func (d *Explanation) JSON() any {
	j := struct {
		Schema
		Part    string         `json:"part"`
		Maker   string         `json:"maker,omitempty"`
		Outcome string         `json:"outcome"`
		Against string         `json:"against,omitempty"`
		Steps   List[stepJSON] `json:"steps"`
		Slow    *slowedJSON    `json:"slow,omitempty"`
		Caution string         `json:"caution"`
	}{Part: d.Fan.Part, Maker: d.Fan.Maker, Outcome: d.Explanation.Outcome, Against: d.Explanation.Against, Caution: Caution}
	for i, s := range d.Explanation.Steps {
		j.Steps = append(j.Steps, stepJSON{i + 1, s.Title, s.Formula, s.Numbers, s.Result, s.Source, s.Estimate, s.Band})
	}
	if d.Slow != nil {
		j.Slow = &slowedJSON{Number(d.Slow.Target.Share), Number(d.Slow.Target.Volts), d.Slow.meansJSON()}
	}
	return j
}

// slowedJSON are the means of running a fan at the needed flow, as slow tells
// them.
type slowedJSON struct {
	Share Number              `json:"speed_ratio"`
	Volts Number              `json:"voltage_v,omitzero"`
	Means List[slowMeansJSON] `json:"means"`
}

// Text writes the steps for people.
func (d *Explanation) Text(w io.Writer, s Style) error {
	p := &printer{w: w, style: s.within(proseWidth)}
	p.wrapped("", Clean(d.Fan.Name()+": "+d.Explanation.Outcome))
	if d.Explanation.Against != "" {
		p.wrapped("", Clean(d.Explanation.Against))
	}
	marked := false
	for i, step := range d.Explanation.Steps {
		marked = marked || step.Estimate
		p.line("")
		p.line("%2d  %s", i+1, s.Bold(Clean(step.Title)))
		p.step(step)
	}
	if d.Slow != nil {
		p.line("")
		p.wrapped("", s.Bold("how to run it at "+d.Slow.targetWords()))
		p.line("")
		p.means(d.Slow)
	}
	if marked {
		p.line("")
		p.line("%s", s.Faint(EstimateNote))
	}
	p.caution()
	return p.err
}

// step writes formula, numbers, result and source, each on its own line below
// the title.
func (p *printer) step(step match.Step) {
	result, source := step.Result, step.Source
	if step.Estimate && result != "" {
		result = Estimated(result)
	}
	if source != "" {
		source = "[" + source + "]"
	}
	for _, line := range [...]struct{ lead, says string }{
		{"", step.Formula}, {"", step.Numbers}, {"= ", result}, {"10–90 %: ", step.Band}, {"", source},
	} {
		if line.says != "" {
			p.wrapped("    "+line.lead, Clean(line.says))
		}
	}
}
