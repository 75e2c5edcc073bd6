package loudness

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"lowsone/acoustics"
)

// The regions cover the scale without a gap, and each third octave once.
func TestRegions(t *testing.T) {
	bark, third := 0.0, 0
	for i := range Regions {
		r := RegionAt(i)
		if r.From != bark || r.To <= r.From {
			t.Errorf("region %d is %v to %v Bark, want it to begin at %v", i, r.From, r.To, bark)
		}
		bark = r.To
		if got := acoustics.ThirdNominal[third]; float64(r.Low) != got {
			t.Errorf("region %d begins at %v Hz, want %v", i, r.Low, got)
		}
		for third < acoustics.NumThirds && acoustics.ThirdNominal[third] <= float64(r.High) {
			third++
		}
	}
	if bark != 24 || third != acoustics.NumThirds {
		t.Errorf("the regions end at %v Bark and third octave %d, want 24 and %d", bark, third, acoustics.NumThirds)
	}
}

// A band's loudness is densest in its own region, and no flank reaches below.
func TestSharesOfOneBand(t *testing.T) {
	for i := lowGroups; i < Regions; i++ {
		l := acoustics.SumThirds()
		l[lowBands-lowGroups+i] = 70
		p := Analyse(&l, Free)
		shares := p.Shares()
		dense := func(j int) float64 { return shares[j] / (RegionAt(j).To - RegionAt(j).From) }
		for j, s := range shares {
			if j != i && dense(j) >= dense(i) || j < i && s != 0 {
				t.Errorf("70 dB in region %d: %v a Bark in region %d, %v in its own", i, dense(j), j, dense(i))
			}
		}
	}
}

func TestShares(t *testing.T) {
	silence := acoustics.SumThirds()
	none := Analyse(&silence, Free)
	if first, last := none.Mostly(0.5); none.Shares() != [Regions]float64{} || first != 0 || last != Regions-1 {
		t.Errorf("silence: shares %v, mostly in %d to %d", none.Shares(), first, last)
	}
	rapid.Check(t, func(t *rapid.T) {
		var l acoustics.Thirds
		for i := range l {
			l[i] = rapid.Float64Range(-20, 100).Draw(t, "level")
		}
		p := Analyse(&l, Free)
		shares, sum := p.Shares(), 0.0
		for _, s := range shares {
			sum += s
		}
		if p.Sone > 0 && math.Abs(sum-1) > 1e-9 {
			t.Fatalf("shares sum to %v, want 1", sum)
		}
		share := rapid.Float64Range(0.05, 0.95).Draw(t, "share")
		first, last := p.Mostly(share)
		held := 0.0
		for _, s := range shares[first : last+1] {
			held += s
		}
		if p.Sone > 0 && held < share {
			t.Fatalf("regions %d to %d hold %v, want %v", first, last, held, share)
		}
		if without := held - min(shares[first], shares[last]); p.Sone > 0 && first < last && without >= share+1e-12 {
			t.Fatalf("regions %d to %d hold %v, without one of the ends still %v", first, last, share, without)
		}
	})
}
