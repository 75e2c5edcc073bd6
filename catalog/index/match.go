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

// found holds the rows one search finds in a chunk, by match.
type found [Exact + 1]rowSet

// strict finds the rows that hold every word of q, or whose part number the
// whole text is or begins.
func (l *lookup) strict(q query) found {
	f := found{Words: l.set(), Prefix: l.set(), Exact: l.set()}
	every := every(l, q.words, func(a asked) rowSet { return l.word(q, a, f[Exact], f[Prefix]) })
	f[Exact].and(every)
	f[Prefix].and(every)
	f[Words].or(every)
	if len(q.words) > 1 { // a part number may be written with blanks
		l.addPart(f[Exact], q.whole)
		l.addPartBegins(f[Prefix], q.whole)
		l.addWordBegins(f[Words], q.whole)
	}
	return f
}

// near finds the rows that hold every word of q with at most one typing error
// in each, or whose part number is one error from the whole text.
func (l *lookup) near(q query) found {
	f := found{NearPart: l.set()}
	if len(q.whole) >= minNear {
		l.addNearPart(f[NearPart], q.whole)
	}
	unused := l.set()
	f[NearWords] = every(l, q.words, func(a asked) rowSet {
		set := l.word(q, a, unused, unused)
		l.nearWord(a, set)
		return set
	})
	return f
}

// every gives the rows that find gives for all of a list; none for an empty one.
// Once there are none left it looks no further.
func every[T any](l *lookup, list []T, find func(T) rowSet) rowSet {
	var every rowSet
	for _, item := range list {
		set := find(item)
		if every == nil {
			every = set
		} else {
			every.and(set)
		}
		if every.empty() {
			break
		}
	}
	if every == nil {
		return l.set()
	}
	return every
}

// word gives the rows that hold an asked word in any spelling. Those whose
// part number it is or begins are also added to exact and prefix.
func (l *lookup) word(q query, a asked, exact, prefix rowSet) rowSet {
	set := l.set()
	for _, s := range a.spellings {
		l.addPart(exact, s.key)
		if len(s.key) >= minPrefix || len(q.words) == 1 {
			begun := l.set()
			l.addPartBegins(begun, s.key)
			prefix.or(begun)
			set.or(begun)
		}
		l.addWord(set, s.key)
		if a.last && len(s.key) >= minPrefix {
			l.addWordBegins(set, s.key)
		}
		set.or(l.separated(s, a.last))
	}
	return set
}

// separated gives the rows that hold each word of a spelling; the last of a
// text may be the beginning of one.
func (l *lookup) separated(s spelling, last bool) rowSet {
	return every(l, s.words, func(r required) rowSet {
		set := l.paired(r)
		l.addWord(set, r.text)
		if last && r.tail && len(r.text) >= minPrefix {
			l.addWordBegins(set, r.text)
		}
		return set
	})
}

// paired gives the rows that hold all pairs of a word; none where it has none.
func (l *lookup) paired(r required) rowSet {
	return every(l, r.pairs, func(pair string) rowSet {
		set := l.set()
		l.addWord(set, pair)
		return set
	})
}

// nearWord adds the rows that hold an asked word with one typing error: as a
// part number, or as a word of letters. Numbers one digit apart are other
// numbers.
func (l *lookup) nearWord(a asked, to rowSet) {
	for _, s := range a.spellings {
		if len(s.key) < minNear {
			continue
		}
		l.addNearPart(to, s.key)
		if len(s.words) == 1 && s.words[0].letters {
			l.addNearWord(to, s.key)
		}
	}
}
