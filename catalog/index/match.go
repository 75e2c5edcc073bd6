package index

// Match says how a row was found, better ones higher.
type Match uint8

// The ways a row is found.
const (
	NearWords Match = iota + 1 // all words, some with one typing error
	NearPart                   // the part number, with one typing error
	Words                      // all words
	Prefix                     // the beginning of its part number
	Exact                      // its part number
)

// minNear is the shortest word looked for with a typing error. In shorter ones
// one error leaves nothing to go by.
const minNear = 4

// minPrefix is the shortest word that stands for the beginning of others, but
// where it is the whole text.
const minPrefix = 2

// found holds the rows one search finds in a shard, by match.
type found [Exact + 1]rowSet

// strict finds the rows that hold every word of q, or whose part number the
// whole text is or begins.
func (l *lookup) strict(q query) found {
	f := found{Words: l.set(), Prefix: l.set(), Exact: l.set()}
	every := l.every(q, func(a asked, last bool) rowSet { return l.word(q, a, last, f[Exact], f[Prefix]) })
	f[Exact].and(every)
	f[Prefix].and(every)
	f[Words].or(every)
	if len(q.words) > 1 { // a part number may be written with blanks
		l.addTerm(f[Exact], partField, q.whole)
		l.addPrefix(f[Prefix], partField, q.whole)
		l.addPrefix(f[Words], wordField, q.whole)
	}
	return f
}

// near finds the rows that hold every word of q with at most one typing error
// in each, or whose part number is one error from the whole text.
func (l *lookup) near(q query) found {
	f := found{NearPart: l.set()}
	if len(q.whole) >= minNear {
		l.addNear(f[NearPart], partField, q.whole)
	}
	unused := l.set()
	f[NearWords] = l.every(q, func(a asked, last bool) rowSet {
		set := l.word(q, a, last, unused, unused)
		l.nearWord(a, set)
		return set
	})
	return f
}

// every gives the rows that find gives for all words of q.
func (l *lookup) every(q query, find func(a asked, last bool) rowSet) rowSet {
	var every rowSet
	for i, a := range q.words {
		set := find(a, i == len(q.words)-1)
		if every == nil {
			every = set
		} else {
			every.and(set)
		}
	}
	if every == nil {
		return l.set()
	}
	return every
}

// word gives the rows that hold an asked word in any spelling. Those whose
// part number it is or begins are also added to exact and prefix.
func (l *lookup) word(q query, a asked, last bool, exact, prefix rowSet) rowSet {
	set := l.set()
	for _, s := range a.spellings {
		l.addTerm(exact, partField, s.key)
		if len(s.key) >= minPrefix || len(q.words) == 1 {
			begun := l.set()
			l.addPrefix(begun, partField, s.key)
			prefix.or(begun)
			set.or(begun)
		}
		l.addTerm(set, wordField, s.key)
		if last && len(s.key) >= minPrefix {
			l.addPrefix(set, wordField, s.key)
		}
		set.or(l.separated(s, last))
	}
	return set
}

// separated gives the rows that hold each word of a spelling; the last of a
// text may be the beginning of one.
func (l *lookup) separated(s spelling, last bool) rowSet {
	var every rowSet
	for i, r := range s.words {
		set := l.paired(r)
		l.addTerm(set, wordField, r.text)
		if last && i == len(s.words)-1 && i > 0 && len(r.text) >= minPrefix {
			l.addPrefix(set, wordField, r.text)
		}
		if every == nil {
			every = set
		} else {
			every.and(set)
		}
	}
	return every
}

// paired gives the rows that hold all pairs of a word; none where it has none.
func (l *lookup) paired(r required) rowSet {
	var every rowSet
	for _, pair := range r.pairs {
		set := l.set()
		l.addTerm(set, wordField, pair)
		if every == nil {
			every = set
		} else {
			every.and(set)
		}
	}
	if every == nil {
		return l.set()
	}
	return every
}

// nearWord adds the rows that hold an asked word with one typing error: as a
// part number, or as a word of letters. Numbers one digit apart are other
// numbers.
func (l *lookup) nearWord(a asked, to rowSet) {
	for _, s := range a.spellings {
		if len(s.key) < minNear {
			continue
		}
		l.addNear(to, partField, s.key)
		if len(s.words) == 1 && s.words[0].letters {
			l.addNear(to, wordField, s.key)
		}
	}
}
