package index

import (
	"encoding/binary"

	bleve "github.com/blevesearch/bleve_index_api"
)

// wordField is the one field of the index.
const wordField = "w"

const idField = "_id" // the engine's own

// textID is how the number of a text stands in the index.
func textID(text uint32) string {
	return string(binary.BigEndian.AppendUint32(nil, text))
}

func textOf(id string) (text uint32, ok bool) {
	if len(id) != 4 {
		return 0, false
	}
	return binary.BigEndian.Uint32([]byte(id)), true
}

// document is a text as the engine takes it, its words already cut.
type document struct {
	id     string
	fields [2]field
}

func newDocument(number uint32, text string) *document {
	id := textID(number)
	d := &document{id: id, fields: [2]field{
		newField(idField, bleve.IndexField|bleve.StoreField, 1),
		newField(wordField, bleve.IndexField, 16),
	}}
	d.fields[0].value = []byte(id)
	d.fields[0].add(id)
	addText(text, d.fields[1].add)
	return d
}

func (d *document) ID() string { return d.id }
func (d *document) VisitFields(visit bleve.FieldVisitor) {
	for i := range d.fields {
		visit(&d.fields[i])
	}
}

// What follows of the engine's document interface has nothing to say here:
// there is no composite field, and the id is already a field.
func (d *document) AddIDField()                                {}
func (d *document) VisitComposite(bleve.CompositeFieldVisitor) {}
func (d *document) HasComposite() bool                         { return false }
func (d *document) Indexed() bool                              { return true }
func (d *document) Size() int                                  { return 0 }
func (d *document) NumPlainTextBytes() uint64                  { return 0 }
func (d *document) StoredFieldsBytes() uint64                  { return 0 }

// field is a set of words. Every word counts once: without scores, how often
// it stands there does not matter.
type field struct {
	name    string
	options bleve.FieldIndexingOptions
	value   []byte
	terms   bleve.TokenFrequencies
	spare   []bleve.TokenFreq // made together: texts have many words
	bytes   []byte            // of the words
}

// newField makes room for about so many words.
func newField(name string, options bleve.FieldIndexingOptions, words int) field {
	return field{name: name, options: options, terms: make(bleve.TokenFrequencies, words), spare: make([]bleve.TokenFreq, words), bytes: make([]byte, 0, 8*words)}
}

func (f *field) add(term string) {
	if len(f.terms) >= maxTerms || f.terms[term] != nil {
		return
	}
	if len(f.spare) == 0 {
		f.spare = make([]bleve.TokenFreq, 32)
	}
	t := &f.spare[0]
	f.spare = f.spare[1:]
	begin := len(f.bytes)
	f.bytes = append(f.bytes, term...)
	t.Term = f.bytes[begin:len(f.bytes):len(f.bytes)]
	t.SetFrequency(1)
	f.terms[term] = t
}

func (f *field) Name() string                                     { return f.name }
func (f *field) Value() []byte                                    { return f.value }
func (f *field) Options() bleve.FieldIndexingOptions              { return f.options }
func (f *field) AnalyzedLength() int                              { return len(f.terms) }
func (f *field) AnalyzedTokenFrequencies() bleve.TokenFrequencies { return f.terms }
func (f *field) ArrayPositions() []uint64                         { return nil }
func (f *field) EncodedFieldType() byte                           { return 't' }
func (f *field) Analyze()                                         {}
func (f *field) NumPlainTextBytes() uint64                        { return 0 }
