package cohort

import (
	"runtime"
	"sync"
)

// chunk is how many patients one core takes at a time. It is part of the
// result: sums are made within chunks first and then over them in order.
const chunk = 500

// spread works on 0 to n-1 in chunks over all cores and gives what each chunk
// came to, in order.
func spread[T any](n int, work func(from, to int) T) []T {
	out := make([]T, (n+chunk-1)/chunk)
	next := make(chan int)
	var wg sync.WaitGroup
	for range runtime.GOMAXPROCS(0) {
		wg.Add(1)
		go func() {
			defer wg.Done()
			for i := range next {
				out[i] = work(i*chunk, min(n, (i+1)*chunk))
			}
		}()
	}
	for i := range out {
		next <- i
	}
	close(next)
	wg.Wait()
	return out
}
