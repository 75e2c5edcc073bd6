package catalog

import "lowsone/catalog/quantity"

// Fields is the table of fields, in the order of the tool's own CSV; it is
// read only. Bounds are what no real fan of this trade passes (common
// practice); they catch swapped units and placeholder zeros.
var Fields = [NumFields]Field{
	text(FieldPart, "part", "part", func(f *Fan) *string { return &f.Part }).essential(),
	text(FieldMaker, "maker", "maker", func(f *Fan) *string { return &f.Maker }),
	choice(FieldKind, "kind", "kind", kindNames, func(f *Fan) *quantity.Known[Kind] { return &f.Kind }).essential(),
	number(FieldWidth, "width_mm", "width", "mm", func(f *Fan) *quantity.Known[quantity.Length] { return &f.Width }).within(5, 2000).essential(),
	number(FieldHeight, "height_mm", "height", "mm", func(f *Fan) *quantity.Known[quantity.Length] { return &f.Height }).within(5, 2000).essential(),
	number(FieldDepth, "depth_mm", "depth", "mm", func(f *Fan) *quantity.Known[quantity.Length] { return &f.Depth }).within(2, 1000).essential(),
	number(FieldHolePitch, "hole_pitch_mm", "hole pitch", "mm", func(f *Fan) *quantity.Known[quantity.Length] { return &f.HolePitch }).within(4, 2000),
	number(FieldVoltage, "voltage_v", "voltage", "V", func(f *Fan) *quantity.Known[quantity.Voltage] { return &f.Voltage }).within(0.5, 1000).essential(),
	number(FieldVoltageMin, "voltage_min_v", "lowest voltage", "V", func(f *Fan) *quantity.Known[quantity.Voltage] { return &f.VoltageMin }).within(0.3, 1000).essential(),
	number(FieldVoltageMax, "voltage_max_v", "highest voltage", "V", func(f *Fan) *quantity.Known[quantity.Voltage] { return &f.VoltageMax }).within(0.5, 1000).essential(),
	choice(FieldSupply, "supply", "supply", supplyNames, func(f *Fan) *quantity.Known[Supply] { return &f.Supply }),
	number(FieldCurrent, "current_a", "current", "A", func(f *Fan) *quantity.Known[quantity.Current] { return &f.Current }).within(0.001, 100),
	number(FieldPower, "power_w", "power", "W", func(f *Fan) *quantity.Known[quantity.Power] { return &f.Power }).within(0.01, 10000),
	count(FieldLeads, "leads", "leads", func(f *Fan) *quantity.Known[float64] { return &f.Leads }).within(1, 12),
	text(FieldConnector, "connector", "connector", func(f *Fan) *string { return &f.Connector }),
	count(FieldTachPerRev, "tach_per_rev", "tach pulses per turn", func(f *Fan) *quantity.Known[float64] { return &f.TachPerRev }).within(0, 24),
	flag(FieldPWM, "pwm", "PWM input", func(f *Fan) *quantity.Known[bool] { return &f.PWM }),
	number(FieldStartVoltage, "start_voltage_v", "starting voltage", "V", func(f *Fan) *quantity.Known[quantity.Voltage] { return &f.StartVoltage }).within(0.3, 1000),
	number(FieldFrequency, "frequency_hz", "mains frequency", "Hz", func(f *Fan) *quantity.Known[quantity.Frequency] { return &f.Frequency }).within(15, 1000),
	number(FieldAirflow, "airflow_m3h", "free airflow", "m³/h", func(f *Fan) *quantity.Known[quantity.Flow] { return &f.Airflow }).within(0.01, 200000).essential(),
	number(FieldStaticPressure, "static_pressure_pa", "static pressure", "Pa", func(f *Fan) *quantity.Known[quantity.Pressure] { return &f.StaticPressure }).within(0.1, 50000).essential(),
	points(FieldCurve, "curve", "curve", func(f *Fan) *[]CurvePoint { return &f.Curve }).essential(),
	number(FieldSpeed, "speed_rpm", "speed", "rpm", func(f *Fan) *quantity.Known[quantity.Speed] { return &f.Speed }).within(30, 200000),
	number(FieldNoise, "noise_dba", "noise", "dB(A)", func(f *Fan) *quantity.Known[quantity.Decibel] { return &f.Noise }).within(10, 130).essential(),
	choice(FieldNoiseKind, "noise_kind", "kind of noise value", noiseKindNames, func(f *Fan) *quantity.Known[NoiseKind] { return &f.NoiseKind }),
	number(FieldNoiseDistance, "noise_distance_m", "noise distance", "m", func(f *Fan) *quantity.Known[quantity.Length] { return &f.NoiseDistance }).within(0.05, 50),
	bands(FieldNoiseBands, "noise_bands", "noise by bands", func(f *Fan) *[]quantity.BandLevel { return &f.NoiseBands }),
	count(FieldBlades, "blades", "blades", func(f *Fan) *quantity.Known[float64] { return &f.Blades }).within(2, 200),
	text(FieldBearing, "bearing", "bearing", func(f *Fan) *string { return &f.Bearing }),
	number(FieldLife, "life_h", "life", "h", func(f *Fan) *quantity.Known[quantity.Time] { return &f.Life }).within(100, 2e6),
	temperature(FieldLifeTemp, "life_temp_c", "temperature of the stated life", func(f *Fan) *quantity.Known[quantity.Temperature] { return &f.LifeTemp }).within(-60, 200),
	temperature(FieldTempMax, "temp_max_c", "highest air temperature", func(f *Fan) *quantity.Known[quantity.Temperature] { return &f.TempMax }).within(-60, 500),
	money(FieldPrice, "price", "price", func(f *Fan) *quantity.Known[float64] { return &f.Price }).within(0.001, 1e6),
	text(FieldCurrency, "currency", "currency", func(f *Fan) *string { return &f.Currency }),
	text(FieldSupplier, "supplier", "supplier", func(f *Fan) *string { return &f.Supplier }),
	text(FieldOrderCode, "order_code", "order code", func(f *Fan) *string { return &f.OrderCode }),
	count(FieldStock, "stock", "stock", func(f *Fan) *quantity.Known[float64] { return &f.Stock }).within(0, 1e9),
	flag(FieldInStock, "in_stock", "in stock", func(f *Fan) *quantity.Known[bool] { return &f.InStock }),
	text(FieldDescription, "description", "description", func(f *Fan) *string { return &f.Description }),
}

func text(id FieldID, name, title string, at func(*Fan) *string) Field {
	return Field{
		ID: id, Name: name, Title: title, Form: Text,
		get: func(f *Fan) (Value, quantity.Origin) {
			if s := *at(f); s != "" {
				return Value{Text: s}, quantity.Cell
			}
			return Value{}, quantity.Unknown
		},
		set: func(f *Fan, v Value, o quantity.Origin) {
			if o == quantity.Unknown {
				v.Text = ""
			}
			*at(f) = v.Text
		},
	}
}

func points(id FieldID, name, title string, at func(*Fan) *[]CurvePoint) Field {
	return Field{
		ID: id, Name: name, Title: title, Form: Points,
		get: func(f *Fan) (Value, quantity.Origin) {
			if c := *at(f); len(c) > 0 {
				return Value{Curve: c}, quantity.Cell
			}
			return Value{}, quantity.Unknown
		},
		set: func(f *Fan, v Value, o quantity.Origin) {
			if o == quantity.Unknown {
				v.Curve = nil
			}
			*at(f) = v.Curve
		},
	}
}

func bands(id FieldID, name, title string, at func(*Fan) *[]quantity.BandLevel) Field {
	return Field{
		ID: id, Name: name, Title: title, Form: Bands,
		get: func(f *Fan) (Value, quantity.Origin) {
			if b := *at(f); len(b) > 0 {
				return Value{Bands: b}, quantity.Cell
			}
			return Value{}, quantity.Unknown
		},
		set: func(f *Fan, v Value, o quantity.Origin) {
			if o == quantity.Unknown {
				v.Bands = nil
			}
			*at(f) = v.Bands
		},
	}
}

// known builds a field over a Known value with its two conversions.
func known[T any](d Field, at func(*Fan) *quantity.Known[T], to func(T) float64, from func(float64) T) Field {
	d.get = func(f *Fan) (Value, quantity.Origin) {
		k := at(f)
		v, ok := k.Get()
		if !ok {
			return Value{}, quantity.Unknown
		}
		return Value{Number: to(v)}, k.Origin()
	}
	d.set = func(f *Fan, v Value, o quantity.Origin) { *at(f) = quantity.From(from(v.Number), o) }
	return d
}

func number[T ~float64](id FieldID, name, title, unit string, at func(*Fan) *quantity.Known[T]) Field {
	d := Field{ID: id, Name: name, Title: title, Form: Quantity, Unit: unitNamed(unit)}
	return known(d, at, func(v T) float64 { return float64(v) }, func(v float64) T { return T(v) })
}

func temperature(id FieldID, name, title string, at func(*Fan) *quantity.Known[quantity.Temperature]) Field {
	d := Field{ID: id, Name: name, Title: title, Form: Quantity, Unit: unitNamed("°C")}
	return known(d, at, quantity.Temperature.Celsius, quantity.Celsius)
}

func count(id FieldID, name, title string, at func(*Fan) *quantity.Known[float64]) Field {
	return known(Field{ID: id, Name: name, Title: title, Form: Count}, at, same, same)
}

func money(id FieldID, name, title string, at func(*Fan) *quantity.Known[float64]) Field {
	return known(Field{ID: id, Name: name, Title: title, Form: Money}, at, same, same)
}

func choice[T ~uint8](id FieldID, name, title string, names []string, at func(*Fan) *quantity.Known[T]) Field {
	d := Field{ID: id, Name: name, Title: title, Form: Choice, Choices: names}
	return known(d, at, func(v T) float64 { return float64(v) }, func(v float64) T { return T(v) })
}

func flag(id FieldID, name, title string, at func(*Fan) *quantity.Known[bool]) Field {
	d := Field{ID: id, Name: name, Title: title, Form: Choice, Choices: yesNo}
	return known(d, at, func(yes bool) float64 {
		if yes {
			return 2
		}
		return 1
	}, func(v float64) bool { return v == 2 })
}

func (d Field) essential() Field { d.Essential = true; return d }

func (d Field) within(low, high float64) Field { d.Low, d.High = low, high; return d }

func same(v float64) float64 { return v }

// unitNamed finds a unit by its symbol; the table names only units that exist.
func unitNamed(symbol string) quantity.Unit { return quantity.UnitsSpelled(symbol)[0] }
