package raster

import (
	"sync"
	"sync/atomic"
)

// pool is a set of lasting goroutines that paint the bands of one scene after another. They wait on a channel while
// there is nothing to do.
type pool struct {
	start  chan struct{}
	done   sync.WaitGroup
	job    *job
	others int
}

// job is one scene to be painted into a picture.
type job struct {
	scene *solid
	out   *picture
	next  atomic.Int32
}

func newPool(threads int) *pool {
	p := &pool{start: make(chan struct{}), others: threads - 1}
	for range p.others {
		go func() {
			var b band
			for range p.start {
				p.job.work(&b)
				p.done.Done()
			}
		}()
	}
	return p
}

func (p *pool) close() { close(p.start) }

// run paints the job's bands, on the calling goroutine and the pool's own.
func (p *pool) run(j *job, b *band) {
	p.job = j
	p.done.Add(p.others)
	for range p.others {
		p.start <- struct{}{}
	}
	j.work(b)
	p.done.Wait()
}

// work paints bands until none is left. Which thread paints which band changes nothing in the picture.
func (j *job) work(b *band) {
	s := j.scene
	for {
		y0 := int(j.next.Add(1)-1) * bandRows
		if y0 >= s.h {
			return
		}
		y1 := min(y0+bandRows, s.h)
		b.begin(s.w, y0, y1)
		for i := range s.opaque {
			if t := &s.opaque[i]; int(t.bottom) >= y0 && int(t.top) < y1 {
				b.triangle(s, t)
			}
		}
		for i := range s.curves {
			if !s.curves[i].over {
				b.curve(s, &s.curves[i])
			}
		}
		for _, key := range s.order {
			if t := &s.glass[uint32(key)]; int(t.bottom) >= y0 && int(t.top) < y1 {
				b.triangle(s, t)
			}
		}
		for i := range s.curves {
			if s.curves[i].over {
				b.curve(s, &s.curves[i])
			}
		}
		j.out.take(b)
		b.end()
	}
}
