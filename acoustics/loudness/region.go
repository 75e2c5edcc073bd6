package loudness

import (
	"lowsone/acoustics"
	"lowsone/catalog/quantity"
)

// Regions is the number of parts that a pattern is told by.
const Regions = coreBands

// A Region is a part of the ear's scale of pitch: an approximated critical band,
// the last with what lies above it up to 24 Bark. [ISO532-1] A.3, table A.8
type Region struct {
	From, To  float64            // Bark
	Low, High quantity.Frequency // nominal mid-band frequencies of its first and last third octave
}

// RegionAt gives region i, from 0 to Regions−1.
func RegionAt(i int) Region {
	r := Region{To: bandEnd[i]}
	if i > 0 {
		r.From = bandEnd[i-1]
	}
	if i == Regions-1 {
		r.To = bandEnd[allBands-1]
	}
	first, last := lowBands-lowGroups+i, lowBands-lowGroups+i
	if i < lowGroups {
		first, last = 0, lowGroupEnd[i]-1
		if i > 0 {
			first = lowGroupEnd[i-1]
		}
	}
	r.Low, r.High = quantity.Frequency(acoustics.ThirdNominal[first]), quantity.Frequency(acoustics.ThirdNominal[last])
	return r
}

// Shares gives what share of the loudness lies in each region; all 0 where there
// is none. A flank counts where it lies, above the band that throws it.
func (p *Pattern) Shares() (shares [Regions]float64) {
	sum, region := 0.0, 0
	for bin, specific := range p.Specific {
		for region < Regions-1 && Bark(bin) > RegionAt(region).To+1e-9 {
			region++
		}
		shares[region] += specific
		sum += specific
	}
	for i := range shares {
		if sum > 0 {
			shares[i] /= sum
		}
	}
	return shares
}

// Mostly gives the shortest run of regions, from first to last, that holds at
// least a share of the loudness; of equally short ones that which holds most. It
// is all of them where there is no loudness.
func (p *Pattern) Mostly(share float64) (first, last int) {
	shares := p.Shares()
	for length := range Regions {
		best := 0.0
		for from := range Regions - length {
			sum := 0.0
			for _, s := range shares[from : from+length+1] {
				sum += s
			}
			if sum >= share && sum > best {
				best, first, last = sum, from, from+length
			}
		}
		if best > 0 {
			return first, last
		}
	}
	return 0, Regions - 1
}
