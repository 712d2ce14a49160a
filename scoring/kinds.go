package scoring

import (
	"reflect"
	"slices"
)

var (
	boolKind   = reflect.TypeFor[bool]()
	intKind    = reflect.TypeFor[int]()
	numberKind = reflect.TypeFor[float64]()
	stringKind = reflect.TypeFor[string]()
	momentKind = reflect.TypeFor[Moment]()
	spanKind   = reflect.TypeFor[Span]()
)

// kindNames are the kinds in signatures and messages.
var kindNames = map[reflect.Type]string{
	boolKind: "yes or no", intKind: "count", numberKind: "number", stringKind: "name",
	momentKind: "moment", spanKind: "span",
	reflect.TypeFor[Share](): "share", reflect.TypeFor[Dose](): "dose",
	reflect.TypeFor[Concentration](): "concentration", reflect.TypeFor[Pressure](): "pressure",
	reflect.TypeFor[Mass](): "mass", reflect.TypeFor[Volume](): "volume",
	reflect.TypeFor[Length](): "length", reflect.TypeFor[Words](): "words",
}

// a names a kind with its article.
func a(kind reflect.Type) string {
	switch kind {
	case boolKind, reflect.TypeFor[Words]():
		return kindNames[kind]
	}
	return "a " + kindNames[kind]
}

// leafKinds is the kind of every leaf of the environment by its full name, and
// leafPlaces where it lies there.
var leafKinds, leafPlaces = func() (map[string]reflect.Type, map[string][]int) {
	kinds, places := map[string]reflect.Type{}, map[string][]int{}
	var walk func(t reflect.Type, prefix string, place []int)
	walk = func(t reflect.Type, prefix string, place []int) {
		for i := range t.NumField() {
			f := t.Field(i)
			name, at := f.Tag.Get("expr"), append(slices.Clone(place), i)
			switch {
			case f.Anonymous:
				walk(f.Type, prefix, at)
			case f.Type.Kind() == reflect.Struct && kindNames[f.Type] == "":
				walk(f.Type, prefix+name+".", at)
			default:
				kinds[prefix+name], places[prefix+name] = f.Type, at
			}
		}
	}
	walk(reflect.TypeFor[textEnvironment](), "", nil)
	return kinds, places
}()
