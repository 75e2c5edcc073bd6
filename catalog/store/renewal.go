package store

import (
	"context"
)

// Renews says whether a commit changes what the catalogue answers although no row
// is new: a source imported later lists parts of this one, which then is the one
// imported last. Damage is for Commit to tell.
func (b *Builder) Renews(ctx context.Context) (bool, error) {
	was := b.ledger.stands.Before
	if b.live == nil || was.Name == "" {
		return false, nil
	}
	later := b.overtaken(was)
	if len(later) == 0 {
		return false, nil
	}
	twins, err := b.live.Twins(ctx)
	if err != nil {
		return false, unlessDamage(err)
	}
	begin, end := b.live.manifest.span(was.Name)
	for _, p := range twins.pairs {
		if begin <= p.aside && p.aside < end && later[b.live.sourceOf(p.counts)] {
			return true, nil
		}
	}
	return false, nil
}

// overtaken lists the sources that were imported after a source, or with it, and
// before this import.
func (b *Builder) overtaken(was SourceInfo) map[string]bool {
	list := map[string]bool{}
	for _, s := range b.live.manifest.Sources {
		if s.Name != was.Name && !s.Imported.Before(was.Imported) && s.Imported.Before(b.im.Time) {
			list[s.Name] = true
		}
	}
	return list
}
