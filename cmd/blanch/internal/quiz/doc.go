// Package quiz is one sitting of questions, as strings and values; no terminal
// is known here. A face shows what [Sitting.Ask] gives, reads a line, and hands
// it to [Sitting.Answer], until [Sitting.Over]; [Sitting.Closing] ends it.
//
// What comes next is for package review to say, and every answer is kept by
// package progress before anything more is shown. Numbers and the order of
// options are drawn by keys from the seed and from how often a question was
// answered: the same seed, progress and answers give the same lines.
//
// Practice explains at once. An assessment gives no hint, no explanation before
// its end and no second try, and says so. Neither is a licence for anything.
package quiz
