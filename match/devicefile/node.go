package devicefile

import (
	"errors"

	"github.com/goccy/go-yaml"
	"github.com/goccy/go-yaml/ast"
	"github.com/goccy/go-yaml/lexer"
	"github.com/goccy/go-yaml/parser"
	"github.com/goccy/go-yaml/token"
)

// node is a piece of the file: a word, a map, a list, or nothing.
type node struct {
	at    Place
	shape shape
	word  string
	pairs []pair
	items []*node
}

type pair struct {
	key   string
	at    Place
	value *node
}

type shape uint8

const (
	empty shape = iota
	word
	mapping
	listing
)

var shapeNames = [...]string{"nothing", "a value", "keys with values", "a list"}

// parse reads a file into nodes. The error is an *Error.
func parse(name string, data []byte) (root *node, t *text, err error) {
	t, source, err := textOf(name, data)
	if err != nil {
		return nil, nil, err
	}
	found := problems{text: t}
	root = found.yaml(source)
	return root, t, found.err()
}

// yaml parses a text. Data never panics: should the YAML library do so on a text
// that is none, that becomes a problem of the file.
func (p *problems) yaml(source string) (root *node) {
	defer func() {
		if broken := recover(); broken != nil {
			p.addf(Place{}, "check brackets, quotes and indentation", "cannot be read as YAML (%v)", broken)
		}
	}()
	tokens := lexer.Tokenize(source)
	p.tokens(tokens)
	if len(p.list) > 0 {
		return nil
	}
	file, err := parser.Parse(tokens, 0, parser.AllowDuplicateMapKey())
	if err != nil {
		p.syntax(err)
		return nil
	}
	return p.document(file)
}

func (p *problems) syntax(err error) {
	var se *yaml.SyntaxError
	if !errors.As(err, &se) {
		p.addf(Place{}, "", "%v", err)
		return
	}
	p.addf(placeOf(se.Token), usual(se.Message), "not valid YAML: %s", se.Message)
}

func (p *problems) document(file *ast.File) *node {
	var root *node
	for _, doc := range file.Docs {
		if doc.Body == nil {
			continue
		}
		n := p.node(doc.Body, 0)
		if root != nil {
			p.addf(n.at, "write one file for each device", "a second document begins here")
			return nil
		}
		root = n
	}
	if root == nil {
		p.addf(Place{}, "", "nothing stands in it")
	}
	return root
}

// node takes a node of the YAML library for one of ours.
func (p *problems) node(from ast.Node, depth int) *node {
	n := &node{at: placeOf(from.GetToken())}
	if depth > mostDepth {
		p.tooDeep(n.at)
		return n
	}
	switch from := from.(type) {
	case *ast.MappingNode:
		n.shape = mapping
		for _, v := range from.Values {
			n.pairs = append(n.pairs, p.pair(v, depth))
		}
		if !from.IsFlowStyle && len(n.pairs) > 0 {
			n.at = n.pairs[0].at // the library names the colon
		}
	case *ast.MappingValueNode:
		n.shape = mapping
		n.pairs = []pair{p.pair(from, depth)}
		n.at = n.pairs[0].at
	case *ast.SequenceNode:
		n.shape = listing
		for _, v := range from.Values {
			n.items = append(n.items, p.node(v, depth+1))
		}
	case *ast.NullNode:
	case ast.ScalarNode:
		n.shape, n.word = word, from.GetToken().Value
	default:
		p.addf(n.at, plainly, "%s has no place in a device file", from.Type())
	}
	return n
}

func (p *problems) pair(v *ast.MappingValueNode, depth int) pair {
	key := v.Key.GetToken()
	out := pair{key: key.Value, at: placeOf(key)}
	if v.Value == nil {
		out.value = &node{at: out.at}
		return out
	}
	out.value = p.node(v.Value, depth+1)
	if out.value.shape == empty || key.Type == token.UnknownType {
		out.value.at = out.at
	}
	return out
}
