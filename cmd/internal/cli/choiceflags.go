package cli

import (
	"fmt"
	"strconv"
	"strings"

	"github.com/spf13/pflag"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
	"lowsone/match"
	"lowsone/match/sample"
)

// choiceFlags say what the device needs, who listens, and which fans may be
// chosen.
type choiceFlags struct {
	need        match.Need
	listener    quantity.Known[quantity.Length]
	room        quantity.Known[quantity.SoundPressureLevel]
	maker       string
	source      sourceChoice
	from, to    int // its rows, once the catalogue is open
	exclude     []string
	priceMax    float64
	inStock     bool
	noEstimates bool
	top         int

	confidence float64 // 0: the default
	nominal    bool
}

// registerSure adds the flags that say how sure the order is to be.
func (c *choiceFlags) registerSure(flags *pflag.FlagSet) {
	flags.Var(newParsed("SHARE", c.readConfidence), "confidence", "rank by the level each fan keeps so surely, from 50% to 99% (else 80%)")
	flags.BoolVar(&c.nominal, "nominal", false, "rank by the level with everything taken as given, without bands")
}

func (c *choiceFlags) readConfidence(text string) error {
	share, err := strconv.ParseFloat(strings.TrimSpace(text), 64)
	if err != nil || !(share > 0 && share < 1) { // 0.8 cannot be a percentage here
		share, err = readShare(text)
	}
	if err == nil && (share < sample.LeastConfidence || share > sample.MostConfidence) {
		err = usagef("below 50 % the other half of the cases is worse; above 99 % the draws do not tell", "%q is outside 50 to 99 %%", text)
	}
	c.confidence = share
	return err
}

// checkSure refuses flags that contradict each other.
func (c *choiceFlags) checkSure() error {
	if c.nominal && c.confidence > 0 {
		return usagef("give one of them", "--nominal and --confidence contradict each other")
	}
	return nil
}

// sure gives how the ranking is drawn; nil: nominal.
func (c *choiceFlags) sure() *sample.Options {
	if c.nominal {
		return nil
	}
	return &sample.Options{Confidence: c.confidence}
}

func (c *choiceFlags) register(flags *pflag.FlagSet, top int, topUsage string) {
	flags.Var(newParsed("NEED", c.readNeed), "need", "flow the device needs: a share of the present flow, such as 80%, or a flow with its unit, such as 20m3/h (else 100%)")
	flags.Var(newMeasure(&c.listener, listenerBounds()), "listener", "distance at which levels are told, in m (else 1)")
	flags.Var(newParsed("dB(A)", c.readRoom), "room-level", "level of the room without the fan, in dB(A); more than 10 dB below it counts as 10 dB below")
	flags.StringVar(&c.maker, "maker", "", "only fans of this `maker`")
	flags.StringVar((*string)(&c.source), "source", "", "only fans of the source of this `name`, as it has them")
	flags.StringArrayVar(&c.exclude, "exclude", nil, "leave out this `PART`; repeat it for more")
	flags.Var(newFieldValue(catalog.FieldPrice, func(v catalog.Value) { c.priceMax = v.Number }), "price-max", "highest `price`, whatever the currency")
	flags.BoolVar(&c.inStock, "in-stock", false, "only fans of which some are in stock")
	flags.BoolVar(&c.noEstimates, "no-estimates", false, "leave out fans of which a value would have to be estimated")
	c.top = top
	flags.Var(newParsed("N", c.readTop), "top", topUsage)
}

func (c *choiceFlags) readNeed(text string) error {
	if strings.HasSuffix(strings.TrimSpace(text), "%") {
		share, err := readShare(text)
		c.need = match.Need{Share: share}
		return err
	}
	if v, err := quantity.Parse(text, quantity.PreferredUnit(quantity.DimNone)); err == nil {
		share := text + "%"
		if v > 0 && v <= 1 {
			share = fmt.Sprintf("%.4g%%, or %s%%,", 100*v, text)
		}
		return usagef("write "+share+" for a share of the present flow, or "+text+"m3/h for a flow", "%q may be a share or a flow", text)
	}
	flow, err := flowBounds().parse(text)
	c.need = match.Need{Flow: quantity.Flow(flow)}
	return err
}

func (c *choiceFlags) readRoom(text string) error {
	db, err := roomBounds().parse(text)
	c.room = quantity.Stated(quantity.PressureLevel(db))
	return err
}

func (c *choiceFlags) readTop(text string) error {
	n, err := readCount(text)
	c.top = n
	return err
}

// readCount reads a whole number above 0.
func readCount(text string) (int, error) {
	n, err := wholeNumber(text)
	if err == nil && n == 0 {
		err = usagef("", "0 is none")
	}
	return n, err
}

// apply puts the choice into a request.
func (c *choiceFlags) apply(req *match.Request) {
	req.Need, req.Listener, req.Room = c.need, c.listener.Or(quantity.Metre), c.room
	req.Choice = catalog.Filter{Maker: c.maker, PriceMax: c.priceMax, InStock: c.inStock, From: c.from, To: c.to}
	req.Exclude, req.NoEstimates, req.Top = c.exclude, c.noEstimates, c.top
}
