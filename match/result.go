package match

import (
	"lowsone/catalog"
	"lowsone/match/curve"
	"lowsone/match/resistance"
)

// All flows are in m³/s, pressures in Pa, levels in dB(A) at the listener, and
// speed ratios against rated speed at nominal voltage.

// System is the device's resistance with the fitted fan's working point.
type System struct {
	resistance.Estimate
	Others    []resistance.Estimate // by the other ways recorded, in their order
	Apart     []resistance.Pair     // how far the ways lie apart, the worst first; Best is 0
	Density   float64               // kg/m³ of the air at the fan
	Given     bool                  // the speed ratio was measured or follows from the supply
	Ratio     float64               // speed of the fitted fan while measured
	Estimated []catalog.FieldID
	Warnings  []string
}

// Baseline is the fitted fan as it runs now.
type Baseline struct {
	Fan       *catalog.Fan
	Ratio     float64
	Q, P      float64
	Level     Level
	HasLevel  bool
	Loud      Loudness
	Tone      Tone
	Estimated []catalog.FieldID
}

// Level is a level at the listener. Under: the true one lies at or under DB,
// below which the speed law is not believed.
type Level struct {
	DB    float64
	Under bool
}

// Point is a working point with its level.
type Point struct {
	Ratio float64
	Q, P  float64
	Level Level
}

// Limit says why a fan is not run at the pure matched speed.
type Limit string

// The limits. LimitNone: it runs at the matched speed.
const (
	LimitNone     Limit = ""
	LimitStart    Limit = "start"     // would not start slower
	LimitControl  Limit = "control"   // cannot be slowed
	LimitTach     Limit = "tach"      // slower, the device alarms
	LimitHeadRoom Limit = "head-room" // the regulator needs more voltage than is left
	LimitFull     Limit = "full"      // the matched speed is its full speed
)

// Shares is the verdict over the three shares that are tried where no way to
// the resistance was given.
type Shares string

// The verdicts.
const (
	SharesNone    Shares = "" // a way was given
	SharesHold    Shares = "holds"
	SharesDepends Shares = "depends on the share"
	SharesFail    Shares = "fails"
)

// Candidate is one fan that fits and moves enough air.
type Candidate struct {
	Rank    int
	Row     int // in the catalogue; NotInCatalogue for a fitted fan that is described only
	Fitted  bool
	Full    Point
	Matched Point
	QOverQ0 float64 // of the matched point on the full-speed curve: judges stall and loudness
	Planned Point
	Loud    Loudness // as planned
	Tone    Tone     // as planned
	Limit   Limit

	// Spots are the watched spots at the worst; FanAir is the air that meets the
	// fan then, in °C, and FanLife the life of its bearings over that with the
	// fitted fan as found. Nil and NaN where no spot is watched.
	Spots   []SpotTemperature
	FanAir  float64
	FanLife float64

	Checks     []Check
	Estimated  []catalog.FieldID
	Cautions   []string // what is to be known of its working point beside stall and margin
	TwoEnded   bool     // a band, not an estimate
	Stalled    Stall
	StallNote  string // Stalled in words; empty where it is clear
	Marginal   bool   // matched speed within 10 % of full speed
	MarginNote string // Marginal in words
	Tie        bool   // cannot be told from the one ranked first
	Pareto     bool   // none has more reserve and is quieter
	Shares     Shares
	Price      float64 // NaN where unknown
	Currency   string

	Margin float64 // full-speed flow over the need, less 1
}

// Stall is what is known of stall at the matched point.
type Stall uint8

// The judgements of stall.
const (
	StallClear    Stall = iota
	StallProbable       // axial, two ends only, below 45 % of free delivery
	StallNear           // left of the dip of its curve or within 10 % of it
)

// Ranking is the answer to a Request.
type Ranking struct {
	Baseline   Baseline
	System     System
	Need       float64 // m³/s
	NeedFrom   string
	Heat       *HeatNeed // nil: no spot is watched
	Seat       Installation
	Listener   float64 // m
	Candidates []Candidate
	Fitted     *Candidate // the fitted fan where it is a candidate, but not among the first; else nil
	Rejected   Rejected
	TooWeak    []Weak   // the nearest to enough first, as many as the request names
	Looked     int      // fans that the choice let through
	NotAsked   int      // fans left out because they do not state what the choice asks
	Total      int      // fans that fit and move enough; Candidates may hold fewer
	Unrankable []Reason // why fans could not be ranked, most frequent first
	Notes      []string
}

// Reason counts the fans left out for one reason.
type Reason struct {
	Why   string
	Count int
}

// Rejected counts the fans taken out, each by the first check that failed.
type Rejected map[CheckName]int

// Weak is a fan that fits but cannot move the needed flow.
type Weak struct {
	Row       int
	Fitted    bool
	Q         float64 // at full speed in this device
	Shortfall float64 // share of the need that is missing
	Shares    Shares

	named
}

// curve gives the pure a and b.
func (s System) curve() curve.System { return s.Estimate.System }
