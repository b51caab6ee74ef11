package web

import (
	"fmt"
	"net/http"
	"sync"
	"time"

	"awn/internal/malthouse"
)

// bell tells everybody who looks at a page that the record has grown. It asks
// for the end of the record as long as somebody listens, whoever it is that
// enters: another page, another process, another machine.
type bell struct {
	sync.Mutex
	ears     map[chan int64]bool
	watching bool
	done     chan struct{}
	once     sync.Once
}

// ringEvery is how often the end of the record is asked for.
const ringEvery = 250 * time.Millisecond

// listen gives a channel on which the number of the last entry comes.
func (b *bell) listen(s *Server) (ear chan int64, leave func()) {
	ear = make(chan int64, 1)
	b.Lock()
	defer b.Unlock()
	if b.ears == nil {
		b.ears = map[chan int64]bool{}
	}
	b.ears[ear] = true
	if !b.watching {
		b.watching = true
		go b.watch(s)
	}
	return ear, func() {
		b.Lock()
		defer b.Unlock()
		delete(b.ears, ear)
	}
}

// watch asks until nobody listens.
func (b *bell) watch(s *Server) {
	last := int64(-1)
	tick := time.NewTicker(ringEvery)
	defer tick.Stop()
	for {
		select {
		case <-b.done:
			return
		case <-tick.C:
		}
		head, err := s.House.Store.Read(s.House.Code).Head(s.base)
		if err != nil {
			s.Log.Error("live", "error", err)
			continue
		}
		b.Lock()
		if len(b.ears) == 0 {
			b.watching = false
			b.Unlock()
			return
		}
		if last >= 0 && head.Seq != last {
			for ear := range b.ears {
				select {
				case ear <- head.Seq:
				default: // it has not taken the one before; it will look at the end then
				}
			}
		}
		last = head.Seq
		b.Unlock()
	}
}

// Close lets everybody who listens go, so that the server can end.
func (s *Server) Close() { s.bell.once.Do(func() { close(s.bell.done) }) }

// openLive sets up the stream of events.
func (s *Server) openLive() {
	s.let("GET /live", malthouse.UseLook, func(w http.ResponseWriter, v visit) error {
		control := http.NewResponseController(w)
		if err := control.SetWriteDeadline(time.Time{}); err != nil {
			s.Log.Debug("live", "error", err)
		}
		w.Header().Set("Content-Type", "text/event-stream")
		w.Header().Set("Cache-Control", "no-store")
		ear, leave := s.bell.listen(s)
		defer leave()
		fmt.Fprint(w, ": here\n\n")
		for {
			if err := control.Flush(); err != nil {
				return nil // the reader has gone
			}
			select {
			case <-v.Context().Done():
				return nil
			case <-s.bell.done:
				return nil
			case seq := <-ear:
				fmt.Fprintf(w, "id: %d\nevent: entry\ndata: %d\n\n", seq, seq)
			}
		}
	})
}
