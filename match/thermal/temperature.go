package thermal

// Band is a temperature that hangs on unknown shares, in °C: the lowest and the
// highest of all corners, and what the split in the middle gives.
type Band struct {
	Low, Middle, High float64
	AtLow, AtHigh     Corner
}

// Temperature returns how hot the spot gets, in °C, at the mass flow ratio
// μ = ṁ/ṁ₁ over the present flow, μ > 0, with the conditions c:
//
//	T = T_room + excess + ΔT₁·(P/P₁)·[f_air/μ + f_film/μ^m + f_solid]
//
// More flow is never hotter. Far below the present flow natural convection and
// radiation leave the spot cooler than this says. The error is an *InputError.
func (m Model) Temperature(c Conditions, ratio float64) (Band, error) {
	if err := positive("ratio of the mass flows", ratio); err != nil {
		return Band{}, err
	}
	if err := c.check(); err != nil {
		return Band{}, err
	}
	b := Band{Middle: m.at(m.middle, c, ratio)}
	for i, corner := range m.corners {
		t := m.at(corner, c, ratio)
		if i == 0 || t < b.Low {
			b.Low, b.AtLow = t, corner
		}
		if i == 0 || t > b.High {
			b.High, b.AtHigh = t, corner
		}
	}
	return b, nil
}

func (m Model) at(corner Corner, c Conditions, ratio float64) float64 {
	return m.Inlet(c) + m.rise*(c.Heat/m.heat)*corner.factor(ratio)
}
