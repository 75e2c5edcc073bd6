package match

import (
	"context"
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
	"lowsone/match/resistance"
)

// randomFan draws a fan that fits the seat of these tests: by two ends or by
// points, with now and then a stall dip.
func randomFan(t *rapid.T, part string) *catalog.Fan {
	q0 := rapid.Float64Range(15, 80).Draw(t, "q0")
	p0 := rapid.Float64Range(15, 200).Draw(t, "p0")
	pairs := fmt.Sprintf("part=%s maker=Test%s noise_dba=%.1f speed_rpm=%.0f ", part, frame60,
		rapid.Float64Range(18, 50).Draw(t, "level"), rapid.Float64Range(1500, 7000).Draw(t, "rpm"))
	if rapid.Bool().Draw(t, "points") {
		sag := rapid.Float64Range(0.4, 0.8).Draw(t, "sag")
		return fanOf(t, pairs+fmt.Sprintf("curve=0:%.3f;%.3f:%.3f;%.3f:%.3f;%.3f:0", p0, q0*0.4, p0*sag, q0*0.6, p0*0.55, q0))
	}
	return fanOf(t, pairs+fmt.Sprintf("airflow_m3h=%.3f static_pressure_pa=%.3f", q0, p0))
}

// Property: with all of the present flow needed, the fitted fan comes out at
// exactly the speed it was found at, whatever the way and the speed.
func TestFittedFanComesOutAtItsOwnSpeed(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := randomFan(t, "F")
		req := requestFor(f, NotInCatalogue, Way{Method: resistance.ByShare, Share: rapid.Float64Range(0.15, 0.95).Draw(t, "share")})
		ratio := rapid.Float64Range(0.4, 1.2).Draw(t, "ratio")
		req.Path.SpeedNow.Ratio = quantity.Stated(ratio)
		req.Path.Seat.SlowBy = SlowBy(rapid.IntRange(0, 2).Draw(t, "slow"))
		r, err := Rank(context.Background(), catalog.ColumnsOf(), req)
		if err != nil {
			t.Fatal(err)
		}
		if len(r.Candidates) != 1 {
			t.Fatalf("the fitted fan is left out: %v %v", r.Rejected, r.Unrankable)
		}
		c := r.Candidates[0]
		if !c.Fitted || !near(c.Matched.Ratio, ratio, 1e-9) || !near(c.Planned.Ratio, ratio, 1e-9) {
			t.Fatalf("speed ratio matched %v, planned %v, want %v", c.Matched.Ratio, c.Planned.Ratio, ratio)
		}
		if !near(c.Planned.Level.DB, r.Baseline.Level.DB, 1e-9) || !near(c.Planned.Q, r.Baseline.Q, 1e-9) {
			t.Fatalf("planned %+v is not the baseline %+v", c.Planned, r.Baseline)
		}
	})
}

// Property: the matched speed agrees with bisection on the speed at which the
// fan's working point moves the needed flow (an independent way), where the
// curve has one working point at every speed.
func TestMatchedSpeedAgainstBisection(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q0, p0 := rapid.Float64Range(20, 80).Draw(t, "q0"), rapid.Float64Range(20, 200).Draw(t, "p0")
		cand := fanOf(t, fmt.Sprintf("part=C maker=Test%snoise_dba=30 speed_rpm=3000 curve=0:%.4f;%.4f:%.4f;%.4f:0", frame60, p0, q0*0.5, p0*0.6, q0))
		fitted := fanOf(t, loud)
		req := requestFor(fitted, NotInCatalogue, byFlow(rapid.Float64Range(10, 40).Draw(t, "flow")))
		r, err := Rank(context.Background(), catalog.ColumnsOf(cand), req)
		if err != nil {
			t.Fatal(err)
		}
		i := slices.IndexFunc(r.Candidates, func(c Candidate) bool { return c.Row == 0 })
		if i < 0 {
			t.Skip("too weak")
		}
		want := bisectSpeed(cand.Curve, r.System.curve().B, r.Need)
		if got := r.Candidates[i].Matched.Ratio; !near(got, want, 1e-8) {
			t.Fatalf("matched ratio %v, bisection gives %v", got, want)
		}
	})
}

// bisectSpeed finds r with flow(r) = need on Δp = b·Q², knowing nothing of the
// affinity shortcut: at each r it bisects r²·p(Q/r) − b·Q² for the flow.
func bisectSpeed(points []catalog.CurvePoint, b, need float64) float64 {
	p := func(q float64) float64 {
		for i := 1; i < len(points); i++ {
			if q <= float64(points[i].Flow) {
				a, z := points[i-1], points[i]
				s := (q - float64(a.Flow)) / float64(z.Flow-a.Flow)
				return float64(a.Pressure) + s*float64(z.Pressure-a.Pressure)
			}
		}
		return 0
	}
	bisect := func(low, high float64, f func(float64) float64) float64 {
		for range 200 {
			if mid := (low + high) / 2; f(mid) > 0 {
				low = mid
			} else {
				high = mid
			}
		}
		return low
	}
	end := float64(points[len(points)-1].Flow)
	flowAt := func(r float64) float64 {
		return bisect(0, r*end, func(q float64) float64 { return r*r*p(q/r) - b*q*q })
	}
	return bisect(1e-3, 100, func(r float64) float64 { return need - flowAt(r) })
}

// Property: the answer does not depend on the order of the rows.
func TestOrderIsTotal(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(2, 25).Draw(t, "n")
		fans := make([]*catalog.Fan, n)
		for i := range fans {
			fans[i] = randomFan(t, fmt.Sprintf("P%02d", i/2)) // pairs of equal names, too
			fans[i].Maker = fmt.Sprintf("M%d", i%2)
		}
		req := requestFor(fanOf(t, loud), NotInCatalogue, byFlow(25))
		names := func(fans []*catalog.Fan) []string {
			r, err := Rank(context.Background(), catalog.ColumnsOf(fans...), req)
			if err != nil {
				t.Fatal(err)
			}
			var out []string
			for _, c := range r.Candidates {
				if c.Row >= 0 {
					out = append(out, fans[c.Row].Name())
				}
			}
			return out
		}
		want := names(fans)
		seed := rapid.Uint64().Draw(t, "seed")
		shuffled := slices.Clone(fans)
		rand.New(rand.NewPCG(seed, 1)).Shuffle(n, func(i, j int) { shuffled[i], shuffled[j] = shuffled[j], shuffled[i] })
		if got := names(shuffled); !slices.Equal(got, want) {
			t.Fatalf("order %v, shuffled rows give %v", want, got)
		}
	})
}

// Property: scores never fall along the ranking, and every planned point moves
// at least the need unless the fan is at full speed.
func TestRankingKeepsItsPromises(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var fans []*catalog.Fan
		for i := range rapid.IntRange(1, 30).Draw(t, "n") {
			fans = append(fans, randomFan(t, fmt.Sprintf("P%d", i)))
		}
		req := requestFor(fanOf(t, loud), NotInCatalogue, byFlow(rapid.Float64Range(10, 45).Draw(t, "flow")))
		req.Need.Share = rapid.Float64Range(0.3, 1.3).Draw(t, "share")
		req.Path.Seat.SlowBy = SlowBy(rapid.IntRange(0, 3).Draw(t, "slow"))
		r, err := Rank(context.Background(), catalog.ColumnsOf(fans...), req)
		if err != nil {
			t.Fatal(err)
		}
		left := 0
		for _, n := range r.Rejected {
			left += n
		}
		if left+len(r.Candidates) != r.Looked {
			t.Fatalf("%d looked at, %d ranked, %d left out", r.Looked, len(r.Candidates), left)
		}
		before := math.Inf(-1)
		for _, c := range r.Candidates {
			score := math.Round(math.Max(c.Planned.Level.DB, quietEnough))
			if score < before {
				t.Fatalf("score %v stands behind %v", score, before)
			}
			before = score
			if c.Planned.Q < r.Need*(1-0.006) {
				t.Fatalf("planned %v m³/s is under the need %v", c.Planned.Q, r.Need)
			}
			if !near(c.Planned.P, r.System.curve().Loss(c.Planned.Q), 1e-9) {
				t.Fatalf("planned point %v, %v is not on the resistance", c.Planned.Q, c.Planned.P)
			}
		}
	})
}

func TestWorkedExampleFanInDuct(t *testing.T) {
	// Çengel & Cimbala, Fluid Mechanics, example 14-1 (testdata/sources/air_operating_points.csv, OP-2):
	// the fan's curve in CFM and inH₂O, the system through 650 CFM, 0.83 inH₂O; straight lines
	// between the points give 643.6 CFM (0.5 %).
	curve := ""
	for _, p := range [][2]float64{{0, .90}, {250, .95}, {500, .90}, {750, .75}, {1000, .40}, {1200, 0}} {
		curve += fmt.Sprintf("%.6f:%.6f;", p[0]*float64(quantity.CFM/quantity.CubicMetrePerHour), p[1]*float64(quantity.InchWater))
	}
	f := fanOf(t, "part=EX141 kind=centrifugal width_mm=230 height_mm=230 noise_dba=60 supply=ac frequency_hz=50 voltage_v=230 curve="+curve)
	q, p := 650*quantity.CFM, 0.83*quantity.InchWater
	req := requestFor(f, NotInCatalogue, Way{Method: resistance.ByPoints, Points: []catalog.CurvePoint{{Flow: q / 2, Pressure: p / 4}, {Flow: q, Pressure: p}}})
	r := rankOf(t, req)
	got := r.Baseline.Q / float64(quantity.CFM)
	if math.Abs(got-643.6) > 0.005*643.6 {
		t.Errorf("working point = %.1f CFM, want 643.6 CFM ± 0.5 %% (Çengel & Cimbala ex. 14-1)", got)
	}
	if c := r.Candidates[0]; !near(c.Full.Q, r.Baseline.Q, 1e-9) || !near(c.Matched.Ratio, 1, 1e-9) {
		t.Errorf("as a candidate it works at %v, ratio %v", c.Full.Q, c.Matched.Ratio)
	}
}

func TestHalfTheFlowTakesHalfTheSpeedAndFifteenDecibelsLess(t *testing.T) {
	// Quadratic resistance and the affinity laws: half the flow at half the speed;
	// 50·lg 0.5 = −15.051 dB (testdata/sources/sound_fan_laws.csv F03).
	f := fanOf(t, loud)
	req := requestFor(f, NotInCatalogue, byFlow(30))
	req.Need.Share = 0.5
	c := candidateOf(t, rankOf(t, req), NotInCatalogue)
	if !near(c.Matched.Ratio, 0.5, 1e-9) {
		t.Errorf("ratio = %v, want 0.5", c.Matched.Ratio)
	}
	base := rankOf(t, requestFor(f, NotInCatalogue, byFlow(30))).Baseline
	if got := c.Matched.Level.DB - base.Level.DB; math.Abs(got-(-15.051)) > 1e-3 {
		t.Errorf("level falls by %.4f dB, want -15.051 ± 0.001 (F03)", got)
	}
	if c.Planned.Ratio != 0.68 || c.Limit != LimitStart {
		t.Errorf("planned at %v, limited by %q; a DC fan of unknown starting voltage is not planned below 0.68", c.Planned.Ratio, c.Limit)
	}
	if c.Planned.Q <= c.Matched.Q {
		t.Errorf("held at a higher speed it must move more than the need: %v", c.Planned.Q)
	}
}

func TestTooWeakIsCountedWithItsShortfall(t *testing.T) {
	weak := fanOf(t, "part=WEAK"+frame60+"airflow_m3h=20 static_pressure_pa=20 noise_dba=18 speed_rpm=2000")
	r := rankOf(t, requestFor(fanOf(t, loud), NotInCatalogue, byFlow(30)), weak)
	if r.Rejected[TooWeak] != 1 || len(r.TooWeak) != 1 || r.TooWeak[0].Row != 0 {
		t.Fatalf("rejected %v, too weak %v", r.Rejected, r.TooWeak)
	}
	w := r.TooWeak[0]
	if !near(w.Shortfall, 1-w.Q/r.Need, 1e-12) || w.Shortfall < 0.3 {
		t.Errorf("shortfall %v at %v m³/h of %v", w.Shortfall, m3h(w.Q), m3h(r.Need))
	}
}

func TestThreeShares(t *testing.T) {
	fitted := fanOf(t, loud)
	way := Way{Method: resistance.ByShare, Share: resistance.DefaultShare, Assumed: true}
	strong := fanOf(t, "part=STRONG"+frame60+"airflow_m3h=60 static_pressure_pa=150 noise_dba=46 speed_rpm=6500")
	flat := fanOf(t, "part=PRESSURE"+frame60+"airflow_m3h=32 static_pressure_pa=300 noise_dba=40 speed_rpm=6000")
	r := rankOf(t, requestFor(fitted, NotInCatalogue, way), strong, flat)
	if got := candidateOf(t, r, 0).Shares; got != SharesHold {
		t.Errorf("stronger at both ends: %q, want %q", got, SharesHold)
	}
	if got := candidateOf(t, r, 1).Shares; got != SharesDepends {
		t.Errorf("more pressure, less flow: %q, want %q", got, SharesDepends)
	}
	way.Assumed = false
	if got := candidateOf(t, rankOf(t, requestFor(fitted, NotInCatalogue, way), strong), 0).Shares; got != SharesNone {
		t.Errorf("a share that was given: verdict %q, want none", got)
	}
}

func TestSlowingWays(t *testing.T) {
	quiet := "part=Q" + frame60 + "airflow_m3h=48 static_pressure_pa=120 noise_dba=40 speed_rpm=5600 "
	rows := []struct {
		name, more string
		slow       SlowBy
		share      float64
		ratio      float64
		limit      Limit
	}{
		{"freely", "", SlowAny, 0.8, 0.8, LimitNone},
		{"not at all", "", SlowNone, 0.8, 1, LimitControl},
		{"any: start", "", SlowAny, 0.5, 0.68, LimitStart},
		{"any: PWM goes lower", "pwm=yes", SlowAny, 0.5, 0.5, LimitNone},
		{"pwm lowest", "pwm=yes", SlowPWM, 0.2, 0.3, LimitControl},
		{"known start", "start_voltage_v=5", SlowAny, 0.3, 1330.0 / 2850, LimitStart},
		{"regulator head-room", "", SlowVoltage, 0.95, 1, LimitHeadRoom},
		{"regulator", "", SlowVoltage, 0.75, 0.75, LimitNone},
	}
	for _, row := range rows {
		fitted := fanOf(t, loud)
		req := requestFor(fitted, NotInCatalogue, byFlow(30))
		req.Need.Share, req.Path.Seat.SlowBy = row.share, row.slow
		c := candidateOf(t, rankOf(t, req, fanOf(t, quiet+row.more)), 0)
		if !near(c.Planned.Ratio, row.ratio, 1e-9) || c.Limit != row.limit {
			t.Errorf("%s: planned at %.4f, limit %q, want %.4f, %q", row.name, c.Planned.Ratio, c.Limit, row.ratio, row.limit)
		}
	}
}

func TestSupplyAwayFromNominal(t *testing.T) {
	// 12 V fan on 9 V: 81 % of its speed (testdata/sources/drive_speed_voltage.csv, 2310 of 2850 rpm).
	fan := fanOf(t, "part=RANGE"+frame60+"voltage_min_v=7 voltage_max_v=13.8 airflow_m3h=70 static_pressure_pa=220 noise_dba=45 speed_rpm=6000")
	fitted := fanOf(t, loud)
	req := requestFor(fitted, NotInCatalogue, byFlow(20))
	req.Path.SpeedNow.Ratio = quantity.Stated(1.0)
	req.Path.Seat.Voltage = quantity.Stated(9 * quantity.Volt)
	c := candidateOf(t, rankOf(t, req, fan), 0)
	if !near(c.Full.Ratio, 2310.0/2850, 1e-9) {
		t.Errorf("full speed on 9 V = %v of nominal, want 2310/2850", c.Full.Ratio)
	}
}

func TestContradictionHasBothNumbers(t *testing.T) {
	_, err := Rank(context.Background(), catalog.ColumnsOf(), requestFor(fanOf(t, loud), NotInCatalogue, byFlow(60)))
	var c *resistance.ContradictionError
	if !errors.As(err, &c) || !near(m3h(c.Got), 60, 1e-9) || !near(m3h(c.Limit), 48, 1e-9) || len(c.Causes) == 0 {
		t.Errorf("60 m³/h through a fan of 48: %v", err)
	}
}

func TestScoreFloor(t *testing.T) {
	if got := scoreOf(Level{DB: 9}, quantity.Known[quantity.SoundPressureLevel]{}); got != 15 {
		t.Errorf("score of 9 dB(A) = %d, want 15", got)
	}
	if got := scoreOf(Level{DB: 21.4}, quantity.Stated(quantity.PressureLevel(35))); got != 25 {
		t.Errorf("score of 21.4 dB(A) in a room of 35 = %d, want 25", got)
	}
}
