package loudness

// A flank is where the walk up the specific loudness pattern stands: at z Bark
// with n sone/Bark. Within a critical band the pattern is the core loudness, or
// the flank that lower bands throw upwards where that is more. [ISO532-1] 5.2
type flank struct {
	z, n float64
	step int // range of slopes that n lies in
}

// programEnd holds bandEnd as the program of the standard has it, 0.0001 Bark
// on: only so do its published totals hold to the last digit. [ISO532-1] A.4
var programEnd = programEnds()

func programEnds() (end [allBands]float64) {
	for i, z := range bandEnd {
		end[i] = z + 0.0001
	}
	return end
}

// fall goes down the flank to the end of its straight piece, to the core
// loudness of the band, or to the end of the band, whichever is first, and gives
// the slope. [ISO532-1] A.3, table A.9
func (f *flank) fall(band int, core float64) float64 {
	for f.n <= slopeFloor[f.step] && f.step < slopeSteps-1 {
		f.step++
	}
	least := max(slopeFloor[f.step], core)
	s := slope[f.step][min(band, slopeCols)-1]
	z := f.z + (f.n-least)/s
	if end := programEnd[band]; z > end {
		f.n -= (end - f.z) * s
		f.z = end
		return s
	}
	f.z, f.n = z, least
	return s
}

// walk goes up the pattern that the core loudnesses make and gives the area
// under it in sone; it fills in the pattern where that is asked for. [ISO532-1]
// 5.2, 5.3
func walk(core *[allBands]float64, pattern *[Bins]float64) float64 {
	var f flank
	sum, bin := 0.0, 0
	for band, c := range core {
		for f.n > c && f.z < programEnd[band] {
			from := f
			s := f.fall(band, c)
			sum += (f.z - from.z) * (from.n + f.n) / 2
			if pattern != nil {
				bin = fill(pattern, bin, f.z, from, s)
			}
		}
		if f.n > c {
			continue
		}
		sum += c * (programEnd[band] - f.z)
		f = flank{z: programEnd[band], n: c}
		if pattern != nil {
			bin = fill(pattern, bin, f.z, f, 0)
		}
	}
	return sum
}

// fill writes the bins from the given one up to z, on a line that falls from the
// flank with slope s, and gives the next bin.
func fill(pattern *[Bins]float64, bin int, z float64, from flank, s float64) int {
	for ; bin < Bins && Bark(bin) <= z; bin++ {
		pattern[bin] = from.n
		if s > 0 {
			pattern[bin] = max(0, from.n-(Bark(bin)-from.z)*s)
		}
	}
	return bin
}
