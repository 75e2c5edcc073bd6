package devicefile

import (
	"bytes"
	"encoding/json"
	"strings"
)

// Schema gives the JSON Schema (draft 2020-12) of device files, made of the
// tables that Parse reads by. It holds structure: keys, which of them are needed
// or exclude each other, forms and words. Units, bounds of quantities and what
// cannot be true together are Parse's.
func Schema() []byte {
	defs := &object{}
	defs.add("blank", blankSchema())
	root := defs.define(deviceTable())
	whole := &object{}
	whole.add("$schema", "https://json-schema.org/draft/2020-12/schema")
	whole.add("title", "lowsone device file")
	whole.add("allOf", []any{root, is("not", ref("blank"))})
	whole.add("$defs", defs)
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	// Strings, numbers, lists and objects of them are always encoded.
	_ = e.Encode(whole)
	return b.Bytes()
}

// object is a JSON object that keeps its order.
type object struct {
	names  []string
	values []any
}

func (o *object) add(name string, value any) {
	o.names, o.values = append(o.names, name), append(o.values, value)
}

func (o *object) has(name string) bool {
	for _, n := range o.names {
		if n == name {
			return true
		}
	}
	return false
}

// MarshalJSON writes the members in order.
func (o *object) MarshalJSON() ([]byte, error) {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	b.WriteByte('{')
	for i, name := range o.names {
		if i > 0 {
			b.WriteByte(',')
		}
		if err := e.Encode(name); err != nil {
			return nil, err
		}
		b.WriteByte(':')
		if err := e.Encode(o.values[i]); err != nil {
			return nil, err
		}
	}
	b.WriteByte('}')
	return b.Bytes(), nil
}

// is makes an object of one member.
func is(name string, value any) *object { return &object{[]string{name}, []any{value}} }

// with adds a member.
func (o *object) with(name string, value any) *object { o.add(name, value); return o }

func ref(name string) *object { return is("$ref", "#/$defs/"+name) }

// blankSchema is a part in which nothing is filled in.
func blankSchema() *object {
	return is("anyOf", []any{
		is("enum", []any{nil, notKnown}),
		is("type", "object").with("additionalProperties", ref("blank")),
		is("type", "array").with("items", ref("blank")),
	})
}

// define adds the definition of a table, once, and refers to it.
func (o *object) define(t table) *object {
	if o.has(t.name) {
		return ref(t.name)
	}
	def := &object{}
	o.add(t.name, def) // before its parts, which may hold it again
	properties := &object{}
	for _, e := range t.entries {
		properties.add(e.name, o.property(e))
	}
	def.add("type", []any{"object", "null"})
	def.add("properties", properties)
	def.add("additionalProperties", false)
	if rules := t.rules(); len(rules) > 0 {
		def.add("if", is("not", ref("blank")))
		def.add("then", is("allOf", rules))
	}
	return ref(t.name)
}

// rules are what holds for a table in which anything is filled in.
func (t table) rules() (rules []any) {
	var kinds []any
	for _, e := range t.entries {
		if e.must {
			rules = append(rules, e.needs())
		}
		if e.instead != "" {
			rules = append(rules, is("not", filled(e.name, e.instead)))
		}
		kinds = append(kinds, filled(e.name))
	}
	if t.oneOf {
		rules = append(rules, is("oneOf", kinds))
	}
	return rules
}

// needs holds where something stands under the key, or under one that may stand
// for it.
func (e entry) needs() *object {
	if len(e.or) == 0 {
		return filled(e.name)
	}
	either := []any{filled(e.name)}
	for _, k := range e.or {
		either = append(either, filled(k))
	}
	return is("anyOf", either)
}

// filled holds where something stands under all the keys.
func filled(keys ...string) *object {
	properties := &object{}
	for _, k := range keys {
		properties.add(k, is("not", ref("blank")))
	}
	return is("required", keys).with("properties", properties)
}

func (o *object) property(e entry) *object {
	about := e.about
	switch {
	case e.body == nil:
		if e.example != "" {
			about += ", such as " + e.example
		}
		return e.form.schema().with("description", about)
	case e.many:
		return is("type", []any{"array", "null"}).with("items", o.define(e.body())).with("description", about)
	}
	return is("allOf", []any{o.define(e.body())}).with("description", about)
}

// Patterns of a number, and of the unit behind it.
const (
	numberPattern = `[-+]?([0-9]+\.?[0-9]*|\.[0-9]+)([eE][-+]?[0-9]+)?`
	unitPattern   = `\s*[^\s0-9.,].*`
)

// Patterns of a band, of its level, and of both in a text.
const (
	bandPattern  = numberPattern + `(\s*[^\s0-9.,:;][^:;]*)?`
	levelPattern = numberPattern + `(\s*[dD][bB])?`
	pairPattern  = bandPattern + `\s*:\s*` + levelPattern
)

// schema is what a leaf of this form may hold.
func (f form) schema() *object {
	switch f.kind {
	case formChoice:
		return enum(f.words)
	case formYesNo:
		return is("enum", []any{"yes", "no", true, false, notKnown, nil})
	case formQuantity, formSpeed:
		return pattern(numberPattern + unitPattern)
	case formShare:
		return pattern(numberPattern + `\s*%`)
	case formLength:
		return pattern(noThing + "|" + numberPattern + unitPattern)
	case formCount:
		return f.numbers("integer")
	case formNumber:
		return f.numbers("number")
	case formField:
		return is("type", []any{"number", "string", "null"}).with("minLength", 1)
	case formWords:
		words := strings.Join(f.words, "|")
		return is("anyOf", []any{
			pattern(`(` + words + `)(\s*,\s*(` + words + `))*`),
			is("type", "array").with("items", is("enum", f.words)),
		})
	}
	if f.kind == formBands {
		return bandsSchema()
	}
	return is("type", []any{"string", "number", "boolean", "null"}).with("minLength", 1).with("maxLength", longestText)
}

// bandsSchema is bands with their levels, as keys with values or as a text.
func bandsSchema() *object {
	level := is("anyOf", []any{is("type", "number"), is("enum", []any{notKnown}), is("type", "string").with("pattern", `^\s*`+levelPattern+`\s*$`)})
	keys := is("type", "object").with("propertyNames", is("pattern", `^\s*`+bandPattern+`\s*$`)).with("additionalProperties", level)
	return is("anyOf", []any{keys, pattern(`[;\s]*` + pairPattern + `(\s*;\s*(` + pairPattern + `)?)*`)})
}

func enum(words []string) *object {
	var all []any
	for _, w := range words {
		all = append(all, w)
	}
	return is("enum", append(all, notKnown, nil))
}

// pattern is a text of the pattern, or unknown, or nothing.
func pattern(p string) *object {
	return is("type", []any{"string", "null"}).with("pattern", `^\s*(`+notKnown+`|`+p+`)\s*$`)
}

// numbers is a number, plain or in quotes, within the bounds, or unknown, or
// nothing.
func (f form) numbers(kind string) *object {
	plain := is("type", kind)
	if f.low != 0 || f.high != 0 {
		plain.with("minimum", f.low).with("maximum", f.high)
	}
	return is("anyOf", []any{plain, pattern(numberPattern)})
}
