package match

import "lowsone/catalog"

// reads lists the columns that looking through the catalogue takes: those of the
// checks that a fan can fail on this seat, of the choice, and of rating.
func (p *problem) reads() []catalog.FieldID {
	list := append(p.req.Choice.Fields(), p.task.fit.reads()...)
	list = append(list,
		catalog.FieldKind, catalog.FieldSupply, catalog.FieldFrequency, catalog.FieldVoltage, catalog.FieldSpeed, catalog.FieldWidth,
		catalog.FieldStartVoltage, catalog.FieldTachPerRev, catalog.FieldPWM,
		catalog.FieldAirflow, catalog.FieldStaticPressure, catalog.FieldCurve,
		catalog.FieldNoise, catalog.FieldNoiseKind, catalog.FieldNoiseDistance, catalog.FieldNoiseBands,
	)
	if len(p.exclude) > 0 {
		list = append(list, catalog.FieldPart)
	}
	if p.cooling != nil && p.cooling.outlet {
		list = append(list, catalog.FieldTempMax)
	}
	return list
}
