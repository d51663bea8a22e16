# plyloft: build, try and install.  `make help` lists the targets.
#
# A FLAVOUR is one way to compile everything, in a tree of its own, so that none spoils another: plain in
# build/; check, the same with warnings as errors, which users with other compilers must be spared; sanitize,
# with AddressSanitizer and UndefinedBehaviorSanitizer; clang, for the second compiler's warnings.

VERSION  = 0.1.0
PREFIX   = /usr/local
DESTDIR  =
PART     = samples/front-wing.json
FLAVOUR  = plain
BUILD    = $(if $(filter plain,$(FLAVOUR)),build,build/$(FLAVOUR))

Q       := $(if $(V),,@)# V=1 shows whole commands
MAKEFLAGS += --no-print-directory

ifeq ($(origin CC),default)
CC      := $(firstword $(foreach c,cc gcc clang,$(if $(shell command -v $c 2>/dev/null),$c)) cc)
endif

# ---- flags ----

WARN     = -Wall -Wextra -Wshadow -Wconversion -Wstrict-prototypes -Wmissing-prototypes -Wdouble-promotion -Wundef \
           -Wpointer-arith -Wformat -Wformat-security
HARDEN   = -U_FORTIFY_SOURCE -D_FORTIFY_SOURCE=2 -fstack-protector-strong
# Nothing reads errno after a square root; without this each one is a call.
CFLAGS   = -O2 -g -fno-math-errno

ifeq ($(FLAVOUR),sanitize)
# Fortified string functions would hide from the sanitizers what they look for.
HARDEN   = -U_FORTIFY_SOURCE
CFLAGS   = -O1 -g -fno-omit-frame-pointer
# The flow does most of the sums: its tests would take minutes.
$(BUILD)/src/flow/%.o: CFLAGS = -O2 -g -fno-omit-frame-pointer
SANITIZE = -fsanitize=address,undefined,float-cast-overflow -fno-sanitize-recover=all
else ifeq ($(FLAVOUR),clang)
HARDEN   = -U_FORTIFY_SOURCE
CFLAGS   = -O0
endif
ifneq ($(filter check clang,$(FLAVOUR)),)
WARN    += -Werror
endif

ifeq ($(shell uname -s),Darwin)
export PKG_CONFIG_PATH := $(shell brew --prefix ncurses 2>/dev/null)/lib/pkgconfig:$(PKG_CONFIG_PATH)
else
HARDEN_LINK = -pie -Wl,-z,relro,-z,now
endif

# Headers of others are not ours to warn about.
cflags_of = $(patsubst -I%,-isystem %,$(shell pkg-config --cflags $1 2>/dev/null))
libs_of   = $(shell pkg-config --libs $1 2>/dev/null)

LIBRARY_NEEDS  = gsl libcjson cairo-pdf
PROGRAM_NEEDS  = ncursesw
LIBRARY_LIBS  := $(or $(call libs_of,$(LIBRARY_NEEDS)),-lm)
PROGRAM_LIBS  := $(call libs_of,$(PROGRAM_NEEDS))
TEST_LIBS     := $(call libs_of,cmocka)
LIBRARY_FLAGS := $(call cflags_of,$(LIBRARY_NEEDS))
PROGRAM_FLAGS := $(call cflags_of,$(PROGRAM_NEEDS))
TEST_FLAGS    := $(call cflags_of,cmocka)
MISSING       := $(shell for need in $(LIBRARY_NEEDS) $(PROGRAM_NEEDS); do \
                   pkg-config --exists $$need 2>/dev/null || echo $$need; done)

DEFINES  = -D_GNU_SOURCE -DPL_VERSION='"$(VERSION)"'
COMPILE  = $(CC) -std=c11 $(DEFINES) -Iinclude -Isrc $(LIBRARY_FLAGS) $(WARN) -fPIE $(HARDEN) $(CPPFLAGS) $(CFLAGS) \
           $(SANITIZE)
LINK     = $(CC) $(CFLAGS) $(SANITIZE) $(HARDEN_LINK) $(LDFLAGS)

# ---- files ----

APP_ROOMS         = src/screen src/command
LIBRARY_SOURCES   = $(filter-out $(addsuffix /%,$(APP_ROOMS)),$(wildcard src/*/*.c))
APP_SOURCES       = $(filter-out $(MAIN_SOURCE),$(wildcard $(addsuffix /*.c,$(APP_ROOMS))))
MAIN_SOURCE       = $(wildcard src/command/main.c)
SUPPORT_SOURCES   = $(wildcard tests/*.c)
PUBLISHED_SOURCES = $(wildcard tests/published/*.c)
BENCH_SOURCES     = $(wildcard tests/bench/*.c)
TOOL_SOURCES      = $(wildcard tests/tools/*.c)
TEST_SOURCES      = $(filter-out $(PUBLISHED_SOURCES) $(BENCH_SOURCES),$(wildcard tests/*/test_*.c))
HOUSE_TESTS       = $(wildcard tests/house/test_*.sh)

objects_of        = $(patsubst %.c,$(BUILD)/%.o,$1)
LIBRARY_OBJECTS   = $(call objects_of,$(LIBRARY_SOURCES))
APP_OBJECTS       = $(call objects_of,$(APP_SOURCES))
MAIN_OBJECT       = $(call objects_of,$(MAIN_SOURCE))
SUPPORT_OBJECTS   = $(call objects_of,$(SUPPORT_SOURCES))
TEST_OBJECTS      = $(call objects_of,$(TEST_SOURCES))
PUBLISHED_OBJECTS = $(call objects_of,$(PUBLISHED_SOURCES))
BENCH_OBJECTS     = $(call objects_of,$(BENCH_SOURCES))
TOOL_OBJECTS      = $(call objects_of,$(TOOL_SOURCES))
OBJECTS           = $(foreach kind,LIBRARY APP SUPPORT TEST PUBLISHED BENCH TOOL,$($(kind)_OBJECTS)) $(MAIN_OBJECT)

LIBRARY   = $(BUILD)/libplyloft.a
PROGRAM   = $(if $(MAIN_SOURCE),$(BUILD)/plyloft)
PUBLISHED = $(if $(PUBLISHED_SOURCES),$(BUILD)/published)
BENCH     = $(if $(BENCH_SOURCES),$(BUILD)/bench)
TOOLS     = $(TOOL_OBJECTS:.o=)
tests_in  = $(patsubst %.c,$1/%,$(TEST_SOURCES))
TESTS     = $(call tests_in,$(BUILD))
# Tests of these rooms see the screen and the commands as well; those of the library must do without.
APP_TESTS = $(filter $(BUILD)/tests/screen/% $(BUILD)/tests/command/% $(BUILD)/tests/fuzz/%,$(TESTS))

.DEFAULT_GOAL := all
.DELETE_ON_ERROR:
.PHONY: all sources run check check-slow test sanitize published bench man lint format install uninstall clean help \
        everything objects FORCE

# ---- building ----

all: $(PROGRAM) $(LIBRARY)  ## build/plyloft and build/libplyloft.a, the default; installs nothing

# Rewritten only when their content changes, so that a new compiler, option or prefix, or a source taken away,
# makes again what it concerns.
$(BUILD)/flags:   CONTENT = $(COMPILE) $(LINK)
$(BUILD)/prefix:  CONTENT = $(PREFIX)
$(BUILD)/members: CONTENT = $(LIBRARY_OBJECTS)
$(BUILD)/flags $(BUILD)/prefix $(BUILD)/members: FORCE
	@$(if $(MISSING),echo 'pkg-config does not find $(MISSING): make run installs what is missing' >&2; \
	    exit 1,mkdir -p $(@D))
	@[ "$$(cat $@ 2>/dev/null)" = "$$(printf '%s\n' $(CONTENT))" ] || printf '%s\n' $(CONTENT) >$@

$(APP_OBJECTS) $(MAIN_OBJECT): EXTRA = $(PROGRAM_FLAGS) -DPL_SAMPLES='"$(PREFIX)/share/plyloft/samples"'
$(APP_OBJECTS) $(MAIN_OBJECT): $(BUILD)/prefix
$(SUPPORT_OBJECTS) $(TEST_OBJECTS): EXTRA = -Itests $(TEST_FLAGS)

$(BUILD)/%.o: %.c $(BUILD)/flags
	@mkdir -p $(@D)
	@echo "compile  $@"
	$(Q)$(COMPILE) $(EXTRA) -MMD -MP -c $< -o $@

$(LIBRARY): $(LIBRARY_OBJECTS) $(BUILD)/members
	@echo "archive  $@"
	$(Q)rm -f $@ && ar rcs $@ $(LIBRARY_OBJECTS)

$(PROGRAM) $(BENCH): $(APP_OBJECTS)
$(PROGRAM): $(MAIN_OBJECT)
$(BENCH): $(BENCH_OBJECTS)
$(PUBLISHED): $(PUBLISHED_OBJECTS)
$(APP_TESTS): $(APP_OBJECTS)
$(TESTS): $(BUILD)/%: $(BUILD)/%.o $(SUPPORT_OBJECTS)
$(TOOLS): $(BUILD)/%: $(BUILD)/%.o
$(PROGRAM) $(BENCH) $(APP_TESTS): LINK_LIBS += $(PROGRAM_LIBS)
$(TESTS): LINK_LIBS += $(TEST_LIBS)

$(PROGRAM) $(BENCH) $(PUBLISHED) $(TESTS) $(TOOLS): $(LIBRARY)
	@echo "link     $@"
	$(Q)$(LINK) $(filter %.o,$^) $(LIBRARY) $(LINK_LIBS) $(LIBRARY_LIBS) -o $@

everything: $(PROGRAM) $(LIBRARY) $(TESTS) $(PUBLISHED) $(BENCH) $(TOOLS)
objects: $(OBJECTS)
sources: $(LIBRARY_OBJECTS) $(APP_OBJECTS) $(MAIN_OBJECT)

-include $(wildcard $(OBJECTS:.o=.d))

# ---- running ----

# A make of its own after the set-up, since what pkg-config says is read at the start; as many jobs as
# there are cores unless the caller chose.
JOBS     = $(if $(findstring jobserver,$(MAKEFLAGS)),,-j$(shell getconf _NPROCESSORS_ONLN 2>/dev/null || echo 2))
# Some systems' gcc comes without the sanitizers' runtime while their clang has it.
SANITIZE_CC = $(firstword $(foreach c,$(CC) gcc clang,$(if $(shell mkdir -p build && \
              echo 'int main(void) { return 0; }' | $c -x c -fsanitize=address,undefined - -o build/probe 2>/dev/null && \
              echo yes),$c)) $(CC))

run:  ## bring what is missing, build, and open the sample part (PART=FILE for another)
	@sh .ci/setup run
	@$(MAKE) $(JOBS) all
	@build/plyloft $(PART) || [ $$? -eq 1 ]  # 1: done, and the part falls short somewhere

test: $(TESTS) $(PROGRAM)  ## the plain tests, seconds
	@tests/run.sh $(TESTS)

sanitize:  ## the same tests under AddressSanitizer and UndefinedBehaviorSanitizer
	@$(MAKE) $(JOBS) FLAVOUR=sanitize CC=$(SANITIZE_CC) test

published: $(PUBLISHED)  ## figures from the literature and exact solutions beside ours
	@$(PUBLISHED)

bench: $(BENCH) $(PROGRAM)  ## times and sizes, a table to read, never a verdict
	@PLYLOFT=$(PROGRAM) $(BENCH)

FIELD_PAGE = man/plyloft-part.5

man: $(TOOLS)  ## write the keys of a part file, as the table of fields has them, into plyloft-part(5)
	@$(BUILD)/tests/tools/field_reference <$(FIELD_PAGE) >$(BUILD)/page
	@cmp -s $(BUILD)/page $(FIELD_PAGE) || cp $(BUILD)/page $(FIELD_PAGE)
	@rm -f $(BUILD)/page

check:  ## bring what is missing, then everything that must hold before a change is kept, minutes
	@sh .ci/setup check
	@$(MAKE) $(JOBS) FLAVOUR=check everything
	@if command -v clang >/dev/null; then $(MAKE) $(JOBS) FLAVOUR=clang CC=clang sources; fi
	@$(MAKE) $(JOBS) FLAVOUR=sanitize CC=$(SANITIZE_CC) everything
	@LIBRARY=build/check/libplyloft.a tests/run.sh $(HOUSE_TESTS) $(PUBLISHED:build/%=build/check/%) \
	    $(call tests_in,build/check) $(call tests_in,build/sanitize)

check-slow:  ## the long trials (PL_SLOW=1 in the environment), then all tests under valgrind
	@sh .ci/setup slow
	@$(MAKE) $(JOBS) everything
	@PL_SLOW=1 TEST_SECONDS=7200 tests/run.sh $(TESTS)
	@RUN_UNDER='valgrind -q --leak-check=full --suppressions=tests/leaks.valgrind --error-exitcode=9' \
	    TEST_SECONDS=7200 tests/run.sh $(TESTS)

SOURCES_AND_HEADERS = $(wildcard src/*/*.[ch] include/plyloft/*.h tests/*.[ch] tests/*/*.[ch])

# Layout is only pointed at: tables laid out by hand stay as they are.
lint: $(LIBRARY)  ## rules of the house, and a static analyser and a look at the layout where there are tools
	@tests/run.sh tests/house/test_rules.sh
	@if command -v cppcheck >/dev/null; then \
	    cppcheck -q --std=c11 --enable=warning,performance,portability --inline-suppr --error-exitcode=1 \
	        -D_GNU_SOURCE -Iinclude -Isrc src; \
	elif command -v clang-tidy >/dev/null; then \
	    clang-tidy --quiet --warnings-as-errors='*' --checks='-*,clang-analyzer-*,-clang-analyzer-security.insecureAPI.*' \
	        $(wildcard src/*/*.c) -- -std=c11 $(DEFINES) -DPL_SAMPLES='""' -Iinclude -Isrc $(LIBRARY_FLAGS) \
	        $(PROGRAM_FLAGS); fi
	@if command -v clang-format >/dev/null; then for f in $(SOURCES_AND_HEADERS); do \
	    clang-format $$f | cmp -s - $$f || echo "laid out otherwise than .clang-format would: $$f"; done; fi

format:  ## lay out the sources anew
	clang-format -i $(SOURCES_AND_HEADERS)

# ---- installing ----

SHARE          = $(DESTDIR)$(PREFIX)/share
PAGES          = $(wildcard man/*.1 man/*.5 man/*.7)
SAMPLES        = $(wildcard samples/*.json)
installed_page = $(SHARE)/man/man$(subst .,,$(suffix $1))/$(notdir $1)

install: all  ## into DESTDIR and PREFIX (/usr/local), the program, manual pages and samples
	install -d $(DESTDIR)$(PREFIX)/bin $(SHARE)/man/man1 $(SHARE)/man/man5 $(SHARE)/man/man7 $(SHARE)/plyloft/samples
	install -m 755 build/plyloft $(DESTDIR)$(PREFIX)/bin
	$(foreach page,$(PAGES),install -m 644 $(page) $(call installed_page,$(page)) &&) true
	$(foreach part,$(SAMPLES),install -m 644 $(part) $(SHARE)/plyloft/$(part) &&) true

uninstall:  ## take away what install put there
	rm -f $(DESTDIR)$(PREFIX)/bin/plyloft $(foreach page,$(PAGES),$(call installed_page,$(page))) \
	    $(addprefix $(SHARE)/plyloft/,$(SAMPLES))
	rmdir $(SHARE)/plyloft/samples $(SHARE)/plyloft 2>/dev/null || true

clean:  ## take away build/
	rm -rf build

help:  ## print these lines
	@awk -F ':.*  ## ' '/^[a-z-]+:.*  ## / { printf "%-12s %s\n", $$1, $$2 }' Makefile
