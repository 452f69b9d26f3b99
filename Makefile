# hangtab: how the program is built, tested and installed.
#
#   make guide        look for what is missing, build the program, compile the
#                     corpus into build/guide
#   make              the program alone: build/hangtab
#   make check        every test that fits into a few minutes
#   make check-long   the tests that do not
#   make sanitize     the tests again under ASan and UBSan
#   make bench        figures against floors, as ratios
#   make install      PREFIX (/usr/local) and DESTDIR are obeyed
#   make format, make lint, make clean
#
# CC=clang builds with clang, WERROR=1 makes warnings errors, V=1 shows whole
# command lines. Everything that is built lands in build/; sources are found
# by wildcard.

CC = gcc
CLANG_FORMAT = clang-format
PREFIX = /usr/local
DESTDIR =
DATADIR = $(PREFIX)/share/hangtab
BUILD = build
JOBS = 2

MODULES = glib-2.0 yaml-0.1 libcmark sqlite3 harfbuzz harfbuzz-subset zlib \
	icu-i18n icu-uc gsl
WARNINGS = -Wall -Wextra -Wpedantic -Wshadow -Wstrict-prototypes \
	-Wmissing-prototypes -Wwrite-strings -Wvla
# GLib's macros cast const away: gcc passes over them, clang does not.
WARNINGS += $(if $(findstring clang,$(CC)),,-Wcast-qual)
OPTIMISE = -O2 -g
SANITIZE =
CFLAGS = $(OPTIMISE)

# Asked once, and only by a run that compiles, so that `make guide` can first
# install what pkg-config looks for. Library headers count as the system's.
PKG_CFLAGS = $(eval PKG_CFLAGS := $$(subst -I/,-isystem /,$$(shell \
	pkg-config --cflags $(MODULES))))$(PKG_CFLAGS)
PKG_LIBS = $(eval PKG_LIBS := $$(shell \
	pkg-config --libs $(MODULES)) -lcsv -lhyphen -lm)$(PKG_LIBS)
CHECK_LIBS = $(eval CHECK_LIBS := $$(shell \
	pkg-config --libs check))$(CHECK_LIBS)

COMPILE = $(CC) -std=c17 -D_GNU_SOURCE -Icompiler $(PKG_CFLAGS) $(WARNINGS) \
	$(if $(WERROR),-Werror) $(SANITIZE) $(CFLAGS) $(CPPFLAGS)

HUSH = $(if $(V),,@)
say = @$(if $(V),:,echo '  $(1)')

SOURCES := $(wildcard compiler/*.c compiler/*/*.c compiler/*/*/*.c)
OBJECTS := $(SOURCES:compiler/%.c=$(BUILD)/obj/%.o)
PARTS := $(filter-out $(BUILD)/obj/main.o,$(OBJECTS))
UNITS := $(patsubst tests/%.c,$(BUILD)/%,$(wildcard tests/unit/*.c \
	tests/outside/*.c))
PROGRAM = $(BUILD)/hangtab
LIBRARY = $(BUILD)/libhangtab.a

all: $(PROGRAM)

guide:
	@sh .ci/need guide
	@$(MAKE) --no-print-directory -j$(JOBS) all
	$(PROGRAM) build

$(PROGRAM): $(BUILD)/obj/main.o $(LIBRARY)
	$(call say,link $@)
	$(HUSH)$(CC) $(SANITIZE) $(CFLAGS) $(LDFLAGS) -o $@ $^ $(PKG_LIBS)

# Made anew, so that a source that is gone leaves no member behind.
$(LIBRARY): $(PARTS) $(BUILD)/parts.list
	@rm -f $@
	@ar rcs $@ $(PARTS)

$(BUILD)/obj/%.o: compiler/%.c $(BUILD)/flags.list
	@mkdir -p $(@D)
	$(call say,compile $<)
	$(HUSH)$(COMPILE) -MMD -MP -c -o $@ $<

# The one object that knows where an installed program finds its data.
$(BUILD)/obj/base/place.o: CPPFLAGS += -DHANGTAB_DATADIR='"$(DATADIR)"'
$(BUILD)/obj/base/place.o: $(BUILD)/place.list

$(UNITS): $(BUILD)/%: tests/%.c $(LIBRARY) $(BUILD)/flags.list
	@mkdir -p $(@D)
	$(call say,compile $<)
	$(HUSH)$(COMPILE) -Itests/unit -MMD -MP -MF $@.d -o $@ $< $(LIBRARY) \
		$(LDFLAGS) $(CHECK_LIBS) $(PKG_LIBS)

# A .list file holds a text and is touched only when the text changes.
write_list = @mkdir -p $(@D); printf '%s\n' '$(subst ','\'',$(1))' >$@.new; \
	if cmp -s $@.new $@; then rm $@.new; else mv $@.new $@; fi

# -Werror changes no object.
$(BUILD)/flags.list: FORCE
	$(call write_list,$(filter-out -Werror,$(COMPILE)))
$(BUILD)/parts.list: FORCE
	$(call write_list,$(PARTS))
$(BUILD)/place.list: FORCE
	$(call write_list,$(DATADIR))

units: $(UNITS)

# How a file is compiled, for tests that compile.
flags:
	@printf '%s\n' '$(subst ','\'',$(COMPILE))'

check check-long:
	@sh .ci/need check
	@$(MAKE) --no-print-directory -j$(JOBS) all units
	@python3 tests/run --build $(BUILD) $(if $(filter check-long,$@),--long)

# The sanitizers' own code makes gcc see uninitialised variables that are none.
sanitize:
	@sh .ci/need check
	@$(MAKE) --no-print-directory -j$(JOBS) BUILD=build/sanitize \
		OPTIMISE='-O1 -g -fno-omit-frame-pointer' \
		SANITIZE='-fsanitize=address,undefined \
		-fno-sanitize-recover=undefined \
		-Wno-maybe-uninitialized' all units
	@python3 tests/run --build build/sanitize --sanitize

bench:
	@sh .ci/need check
	@$(MAKE) --no-print-directory -j$(JOBS) all
	@python3 tests/bench/run --build $(BUILD)

install: all
	install -d $(DESTDIR)$(PREFIX)/bin $(DESTDIR)$(DATADIR)
	install -m 755 $(PROGRAM) $(DESTDIR)$(PREFIX)/bin/hangtab
	for folder in schema site tests/codes; do \
		rm -rf "$(DESTDIR)$(DATADIR)/$${folder#tests/}" && \
		cp -R $$folder "$(DESTDIR)$(DATADIR)/$${folder#tests/}" && \
		chmod -R u=rwX,go=rX \
		"$(DESTDIR)$(DATADIR)/$${folder#tests/}" \
		|| exit 1; \
	done

format:
	$(CLANG_FORMAT) -i $$(git ls-files 'compiler/*.[ch]' 'tests/*.[ch]')

lint:
	@sh .ci/need lint
	@sh tests/house/lint

clean:
	rm -rf build

FORCE:
.PHONY: all guide units flags check check-long sanitize bench install format lint \
	clean FORCE
.DELETE_ON_ERROR:

-include $(OBJECTS:.o=.d) $(UNITS:=.d)
