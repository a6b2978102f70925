package cutting

import "math/bits"

// failed remembers what a search has gone through in vain: which strips were left,
// which pieces were used, and how much excess there was to spend. The same strips and
// pieces are come by in many orders. What it says is exact; where two states want one
// place the later has it.
type failed struct {
	s      *search
	radix  []uint64 // of each kind: what one of its strips counts in a state's number
	spare  uint64   // what one strip that may stay short counts
	shift  []uint8  // of each stock: where its pieces used are counted
	pool   uint8    // where pools begin
	usable []uint64 // of each place: the bits of pools, and of stocks that still have candidates there
	states []failedState
	asked  int
	known  int
	mute   bool // states cannot be told apart by two words
}

type failedState struct {
	left, used uint64
	budget     int64
	from       int32 // candidate of the place from which on all were tried
	set        bool
}

const (
	failedSize = 1 << 17 // states that are remembered
	enough     = 50_000  // states asked for by which it must pay
	oneIn      = 50      // of them known at least
)

// pays reports whether it is worth asking.
func (f *failed) pays() bool {
	return !f.mute && (f.asked < enough || f.known*oneIn >= f.asked)
}

// knows reports whether what s stands for was gone through with at least budget to
// spend.
func (f *failed) knows(s failedState, budget int64) bool {
	f.asked++
	have := f.at(s.left, s.used)
	if have.left != s.left || have.used != s.used || have.from > s.from || have.budget < budget || !have.set {
		return false
	}
	f.known++
	return true
}

func (f *failed) keep(s failedState) {
	s.set = true
	*f.at(s.left, s.used) = s
}

// newFailed starts with none.
func newFailed(s *search) *failed {
	f := &failed{s: s, spare: 1, shift: make([]uint8, len(s.avail)), mute: true}
	number := uint64(1)
	grow := func(by uint64) bool {
		high, low := bits.Mul64(number, by)
		number = low
		return high == 0
	}
	if s.p.fine == 0 && !grow(uint64(s.p.short)+1) {
		return f
	}
	for _, n := range s.p.want {
		f.radix = append(f.radix, number)
		if !grow(uint64(n) + 1) {
			return f
		}
	}
	width := 0
	mask := make([]uint64, len(s.avail)+len(s.pools))
	seen := make([]bool, len(s.avail))
	for _, bucket := range s.buckets {
		for _, c := range bucket {
			if c.stock >= 0 && !seen[c.stock] {
				seen[c.stock] = true
				w := bits.Len32(uint32(s.avail[c.stock]))
				f.shift[c.stock] = uint8(width)
				if width += w; width > 64 {
					return f
				}
				mask[c.stock] = (1<<w - 1) << f.shift[c.stock]
			}
		}
	}
	f.pool = uint8(width)
	if width+len(s.pools) > 64 {
		return f
	}
	for i := range s.pools {
		mask[len(s.avail)+i] = 1 << (f.pool + uint8(i))
	}
	f.usable = make([]uint64, len(s.order)+1)
	for i := range s.pools { // every one must be handed out, so which were always counts
		f.usable[len(s.order)] |= mask[len(s.avail)+i]
	}
	for i := len(s.order) - 1; i >= 0; i-- {
		f.usable[i] = f.usable[i+1]
		for _, c := range s.buckets[i] {
			if c.stock >= 0 {
				f.usable[i] |= mask[c.stock]
			}
		}
	}
	f.states = make([]failedState, failedSize)
	f.mute = false
	return f
}

// state gives what the search stands at, at a place in the order.
func (f *failed) state(place int) (left, used uint64) {
	s := f.s
	for _, k := range s.order[place:] {
		if n := s.left[k]; n > 0 {
			left += uint64(n) * f.radix[k]
		}
	}
	if s.p.fine == 0 {
		left += uint64(s.spare) * f.spare
	}
	for _, c := range s.chosen {
		if c.stock >= 0 {
			used += 1 << f.shift[c.stock]
		} else {
			used |= 1 << (f.pool + uint8(-1-c.stock))
		}
	}
	return left, used & f.usable[place]
}

func (f *failed) at(left, used uint64) *failedState {
	h := (left ^ bits.RotateLeft64(used*0x9e3779b97f4a7c15, 31)) * 0xff51afd7ed558ccd
	return &f.states[(h^h>>32)%failedSize]
}
