// Package memo keeps results by the content that they were worked out from, so that after an edit only what the edit
// touches is worked out again. The key of a result is a hash (SHA-256) of everything that it depends on; a result is
// never changed once it is kept, so many plans may share it. What is not asked for during many plans is forgotten.
//
// A memo never changes an answer: it saves work, and that is all. Nothing in it follows the clock or the order of a map.
package memo

import (
	"cmp"
	"sync"
)

// Memo is a store of results. The zero value is empty and ready; a nil *Memo keeps nothing. It may be used by several
// goroutines at once.
type Memo struct {
	// Plans is how many plans a result outlives that nobody asks for, at least; twice as many at most. 0 stands for 8,
	// which covers some undoing.
	Plans int
	// Most bounds what is kept: the latest Most results at least, twice as many at most; 0 sets no bound.
	Most int

	mu         sync.Mutex
	plans      int
	young, old map[Key]any
}

const usualPlans = 8

// Begin says that another plan is being made.
func (m *Memo) Begin() {
	if m == nil {
		return
	}
	m.mu.Lock()
	defer m.mu.Unlock()
	if m.plans++; m.plans%cmp.Or(m.Plans, usualPlans) == 0 {
		m.old, m.young = m.young, nil
	}
}

// Do gives the result kept under a key, or makes it and keeps it. Whoever gets it must not change it. A key belongs to
// one type of result: write the name of what is made into it.
func Do[T any](m *Memo, k Key, work func() T) T {
	v, _ := Try(m, k, func() (T, error) { return work(), nil })
	return v
}

// Try is Do for work that may fail; what failed is not kept.
func Try[T any](m *Memo, k Key, work func() (T, error)) (T, error) {
	if m == nil {
		return work()
	}
	if v, ok := m.get(k); ok {
		return v.(T), nil
	}
	v, err := work()
	if err == nil {
		m.keep(k, v)
	}
	return v, err
}

func (m *Memo) get(k Key) (any, bool) {
	m.mu.Lock()
	defer m.mu.Unlock()
	v, ok := m.young[k]
	if !ok {
		if v, ok = m.old[k]; ok {
			m.put(k, v)
		}
	}
	return v, ok
}

func (m *Memo) keep(k Key, v any) {
	m.mu.Lock()
	defer m.mu.Unlock()
	m.put(k, v)
}

func (m *Memo) put(k Key, v any) {
	if m.Most > 0 && len(m.young) >= m.Most {
		m.old, m.young = m.young, nil
	}
	if m.young == nil {
		m.young = map[Key]any{}
	}
	m.young[k] = v
}
