/* Part files read and saved: what is refused, what is kept, and what is left when a call fails. */
#include "../support.h"

#include "../../src/part/file_calls.h"

#include "plyloft/document.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/socket.h>
#include <sys/stat.h>
#include <sys/un.h>
#include <sys/wait.h>
#include <unistd.h>

/* ---- a folder for each test ---- */

static char *folder;

static int make(void **state)
{
    (void)state;
    folder = make_folder();
    return 0;
}

static int unmake(void **state)
{
    (void)state;
    remove_folder(folder);
    return 0;
}

/* name in the folder; valid until the fourth call after. */
static const char *in_folder(const char *name)
{
    static char paths[4][600];
    static unsigned next;
    char *path = paths[next++ % 4];
    snprintf(path, sizeof paths[0], "%s/%s", folder, name);
    return path;
}

static void put(const char *name, const char *text)
{
    write_whole_file(in_folder(name), text, strlen(text));
}

static void assert_file(const char *name, const char *want)
{
    char *bytes = read_whole_file(in_folder(name), NULL);
    assert_string_equal(bytes, want);
    free(bytes);
}

static mode_t mode_of(const char *name)
{
    struct stat about;
    assert_int_equal(stat(in_folder(name), &about), 0);
    return about.st_mode & 07777;
}

static void assert_sentence(struct pl_problems *problems, const char *want)
{
    assert_int_equal(problems->count, 1);
    assert_int_equal(problems->list[0].severity, PL_ERROR);
    assert_string_equal(problems->list[0].place, "");
    assert_string_equal(problems->list[0].rule, want);
    assert_string_equal(problems->list[0].found, "");
    pl_problems_free(problems);
}

static void assert_reads(const char *path, const char *want)
{
    struct pl_problems problems = {0};
    char *bytes;
    size_t length;
    assert_int_equal(pl_file_read(path, &bytes, &length, &problems), PL_OK);
    assert_int_equal(problems.count, 0);
    assert_int_equal(length, strlen(want));
    assert_string_equal(bytes, want);
    free(bytes);
}

static void assert_unreadable(const char *path, const char *sentence)
{
    struct pl_problems problems = {0};
    char *bytes = (char *)&problems;
    size_t length = 1;
    assert_int_equal(pl_file_read(path, &bytes, &length, &problems), PL_CANNOT_READ);
    assert_null(bytes);
    assert_int_equal(length, 0);
    assert_sentence(&problems, sentence);
}

static void assert_saves(const char *path, const char *text)
{
    struct pl_problems problems = {0};
    enum pl_status status = pl_file_save(path, text, strlen(text), &problems);
    if (status != PL_OK)
        fail_msg("%s", problems.list[0].rule);
    assert_int_equal(problems.count, 0);
}

static void assert_not_saved(const char *path, const char *sentence)
{
    struct pl_problems problems = {0};
    assert_int_equal(pl_file_save(path, "new", 3, &problems), PL_CANNOT_WRITE);
    assert_sentence(&problems, sentence);
}

static void make_socket(const char *path)
{
    struct sockaddr_un address = {.sun_family = AF_UNIX};
    int fd = socket(AF_UNIX, SOCK_STREAM, 0);
    assert_true(strlen(path) < sizeof address.sun_path);
    strcpy(address.sun_path, path);
    assert_int_equal(bind(fd, (struct sockaddr *)&address, sizeof address), 0);
    close(fd);
}

/* Runs test as somebody to whom permissions apply, in a process of its own. */
static void as_nobody(void (*test)(void))
{
    assert_int_equal(chmod(folder, 0777), 0);
    pid_t child = fork();
    assert_true(child >= 0);
    if (!child) {
        /* From inside, since the folders around it may be closed to others. */
        if (chdir(folder) || (geteuid() == 0 && (setgid(65534) || setuid(65534))))
            _exit(2);
        strcpy(folder, ".");
        test();
        _exit(0);
    }
    int status;
    assert_int_equal(waitpid(child, &status, 0), child);
    assert_true(WIFEXITED(status) && WEXITSTATUS(status) == 0);
}

/* In the child a failed assertion has no test to end. */
static void must(bool holds)
{
    if (!holds)
        _exit(1);
}

/* ---- reading ---- */

static void a_file_is_read_whole(void **state)
{
    (void)state;
    put("part.json", "{\"a\": 1}\n");
    assert_reads(in_folder("part.json"), "{\"a\": 1}\n");
    put("empty.json", "");
    assert_reads(in_folder("empty.json"), "");
    assert_int_equal(symlink("part.json", in_folder("link")), 0);
    assert_reads(in_folder("link"), "{\"a\": 1}\n");
}

static void bytes_of_any_kind_are_read(void **state)
{
    (void)state;
    struct pl_problems problems = {0};
    char *bytes;
    size_t length;
    write_whole_file(in_folder("nul"), "a\0b\xff", 4);
    assert_int_equal(pl_file_read(in_folder("nul"), &bytes, &length, &problems), PL_OK);
    assert_int_equal(length, 4);
    assert_memory_equal(bytes, "a\0b\xff", 5);
    free(bytes);
}

static void what_is_no_regular_file_is_refused_without_waiting(void **state)
{
    (void)state;
    assert_int_equal(mkfifo(in_folder("fifo"), 0600), 0);
    make_socket(in_folder("socket"));
    alarm(20); /* a fifo without a writer would block for good */
    assert_unreadable(in_folder("fifo"), "is a fifo: only regular files are read");
    alarm(0);
    assert_unreadable(folder, "is a directory");
    assert_unreadable("/dev/zero", "is a device: only regular files are read");
    assert_unreadable(in_folder("socket"), "cannot be opened: No such device or address");
    assert_unreadable(in_folder("missing.json"), "cannot be opened: No such file or directory");
    assert_unreadable("", "cannot be opened: No such file or directory");
}

static void sixteen_megabytes_are_read_and_one_byte_more_is_not(void **state)
{
    (void)state;
    struct pl_problems problems = {0};
    char *bytes;
    size_t length;
    put("large", "");
    assert_int_equal(truncate(in_folder("large"), PL_DOCUMENT_MOST_BYTES), 0);
    assert_int_equal(pl_file_read(in_folder("large"), &bytes, &length, &problems), PL_OK);
    assert_int_equal(length, PL_DOCUMENT_MOST_BYTES);
    free(bytes);
    assert_int_equal(truncate(in_folder("large"), PL_DOCUMENT_MOST_BYTES + 1), 0);
    assert_unreadable(in_folder("large"), "is larger than 16 MB");
}

static void check_unreadable(void)
{
    struct pl_problems problems = {0};
    char *bytes;
    size_t length;
    must(pl_file_read(in_folder("secret"), &bytes, &length, &problems) == PL_CANNOT_READ);
    must(!strcmp(problems.list[0].rule, "cannot be opened: Permission denied"));
    pl_problems_free(&problems);
}

static void a_file_that_is_not_ours_to_read_is_refused(void **state)
{
    (void)state;
    put("secret", "{}");
    assert_int_equal(chmod(in_folder("secret"), 0), 0);
    as_nobody(check_unreadable);
}

/* Standard input is a pipe into which a child writes size bytes, pausing first. */
static void from_pipe(size_t size, bool non_blocking, enum pl_status want)
{
    int ends[2], kept = dup(STDIN_FILENO);
    assert_int_equal(pipe(ends), 0);
    pid_t child = fork();
    if (!child) {
        static char block[4096];
        memset(block, 'x', sizeof block);
        close(ends[0]);
        usleep(50000);
        for (ssize_t n; size && (n = write(ends[1], block, size < sizeof block ? size : sizeof block)) > 0;)
            size -= (size_t)n;
        _exit(0);
    }
    close(ends[1]);
    dup2(ends[0], STDIN_FILENO);
    close(ends[0]);
    if (non_blocking)
        fcntl(STDIN_FILENO, F_SETFL, O_NONBLOCK);
    struct pl_problems problems = {0};
    char *bytes;
    size_t length;
    assert_int_equal(pl_file_read("-", &bytes, &length, &problems), want);
    dup2(kept, STDIN_FILENO); /* the child finds the pipe closed */
    close(kept);
    waitpid(child, NULL, 0);
    if (want == PL_OK) {
        assert_int_equal(length, size);
        assert_true(size == 0 || (bytes[0] == 'x' && bytes[size - 1] == 'x'));
        assert_int_equal(bytes[size], '\0');
        free(bytes);
    } else {
        assert_sentence(&problems, "is larger than 16 MB");
    }
}

static void standard_input_may_be_a_pipe_up_to_the_limit(void **state)
{
    (void)state;
    from_pipe(0, false, PL_OK);
    from_pipe(5, false, PL_OK);
    from_pipe(300000, true, PL_OK);
    from_pipe(PL_DOCUMENT_MOST_BYTES, false, PL_OK);
    from_pipe(PL_DOCUMENT_MOST_BYTES + 1, false, PL_CANNOT_READ);
}

/* ---- saving ---- */

static void a_new_file_gets_the_usual_permissions(void **state)
{
    (void)state;
    mode_t old = umask(027);
    assert_saves(in_folder("new.json"), "{}\n");
    umask(old);
    assert_file("new.json", "{}\n");
    assert_int_equal(mode_of("new.json"), 0640);
    assert_int_equal(count_in_folder(folder), 1);
}

static void an_old_file_keeps_its_permissions(void **state)
{
    (void)state;
    static const mode_t modes[] = {0600, 0644, 0664, 0755, 0606};
    put("part.json", "old");
    for (size_t i = 0; i < sizeof modes / sizeof modes[0]; i++) {
        char text[32];
        sprintf(text, "text %zu", i);
        assert_int_equal(chmod(in_folder("part.json"), modes[i]), 0);
        assert_saves(in_folder("part.json"), text);
        assert_file("part.json", text);
        assert_int_equal(mode_of("part.json"), modes[i]);
    }
    assert_int_equal(count_in_folder(folder), 1);
}

static void an_old_file_keeps_its_owner_where_we_may(void **state)
{
    (void)state;
    struct stat about;
    if (geteuid() != 0)
        skip();
    put("part.json", "old");
    assert_int_equal(chown(in_folder("part.json"), 12, 34), 0);
    assert_saves(in_folder("part.json"), "new");
    assert_int_equal(stat(in_folder("part.json"), &about), 0);
    assert_int_equal(about.st_uid, 12);
    assert_int_equal(about.st_gid, 34);
}

static void check_save_over_a_strangers_file(void)
{
    struct pl_problems problems = {0};
    must(pl_file_save(in_folder("part.json"), "new", 3, &problems) == PL_OK);
}

static void a_group_that_cannot_be_kept_gets_no_rights_of_the_old_one(void **state)
{
    (void)state;
    put("part.json", "old");
    assert_int_equal(chmod(in_folder("part.json"), 0672), 0);
    as_nobody(check_save_over_a_strangers_file);
    /* our own file when we are not root, and then the group is kept too */
    assert_int_equal(mode_of("part.json"), geteuid() == 0 ? 0622 : 0672);
    assert_file("part.json", "new");
}

static void a_link_stays_and_its_target_is_replaced(void **state)
{
    (void)state;
    struct stat about;
    assert_int_equal(mkdir(in_folder("there"), 0700), 0);
    put("there/part.json", "old");
    assert_int_equal(symlink("there/part.json", in_folder("second")), 0);
    assert_int_equal(symlink(in_folder("second"), in_folder("first")), 0);
    assert_saves(in_folder("first"), "new");
    assert_file("there/part.json", "new");
    assert_int_equal(lstat(in_folder("first"), &about), 0);
    assert_true(S_ISLNK(about.st_mode));
    assert_int_equal(lstat(in_folder("second"), &about), 0);
    assert_true(S_ISLNK(about.st_mode));
    assert_int_equal(count_in_folder(in_folder("there")), 1);
    assert_int_equal(count_in_folder(folder), 3);
}

static void a_link_to_nothing_yet_gets_its_target(void **state)
{
    (void)state;
    assert_int_equal(mkdir(in_folder("there"), 0700), 0);
    assert_int_equal(symlink("there/part.json", in_folder("link")), 0);
    assert_saves(in_folder("link"), "new");
    assert_file("there/part.json", "new");
    assert_int_equal(symlink("round", in_folder("about")), 0);
    assert_int_equal(symlink("about", in_folder("round")), 0);
    assert_not_saved(in_folder("round"), "cannot be saved: Too many levels of symbolic links");
}

static void what_is_no_regular_file_is_not_saved_over(void **state)
{
    (void)state;
    assert_int_equal(mkfifo(in_folder("fifo"), 0600), 0);
    assert_int_equal(mkdir(in_folder("there"), 0700), 0);
    assert_not_saved(in_folder("fifo"), "is a fifo");
    assert_not_saved(in_folder("there"), "is a directory");
    assert_not_saved(in_folder("there/"), "is a directory");
    assert_not_saved("/dev/null", "is a device");
    assert_not_saved("-", "cannot be saved: it was read from standard input");
    assert_int_equal(count_in_folder(folder), 2);
}

static void a_folder_that_is_not_there_is_named_as_the_reason(void **state)
{
    (void)state;
    put("file", "old");
    assert_not_saved(in_folder("nowhere/part.json"), "its folder cannot be opened: No such file or directory");
    assert_not_saved(in_folder("file/part.json"), "cannot be saved: Not a directory");
    assert_file("file", "old");
}

static void check_read_only(void)
{
    struct pl_problems problems = {0};
    must(pl_file_save(in_folder("part.json"), "new", 3, &problems) == PL_CANNOT_WRITE);
    must(!strcmp(problems.list[0].rule, "is read-only"));
    pl_problems_free(&problems);
}

static void a_read_only_file_is_not_replaced(void **state)
{
    (void)state;
    put("part.json", "old");
    assert_int_equal(chmod(in_folder("part.json"), 0444), 0);
    as_nobody(check_read_only);
    assert_file("part.json", "old");
    assert_int_equal(count_in_folder(folder), 1);
}

static void check_closed_folders(void)
{
    struct pl_problems problems = {0};
    must(mkdir(in_folder("shut"), 0555) == 0 && mkdir(in_folder("blind"), 0333) == 0);
    must(pl_file_save(in_folder("shut/part.json"), "new", 3, &problems) == PL_CANNOT_WRITE);
    must(!strcmp(problems.list[0].rule, "no new file can be made in its folder: Permission denied"));
    must(pl_file_save(in_folder("blind/part.json"), "new", 3, &problems) == PL_OK);
    must(chmod(in_folder("blind"), 0777) == 0);
    pl_problems_free(&problems);
}

static void a_folder_without_write_permission_takes_no_file_but_one_without_read_permission_does(void **state)
{
    (void)state;
    as_nobody(check_closed_folders);
    assert_file("blind/part.json", "new");
    assert_int_equal(count_in_folder(in_folder("shut")), 0);
}

static void a_name_without_a_folder_is_saved_where_we_are(void **state)
{
    (void)state;
    int here = open(".", O_RDONLY | O_DIRECTORY);
    assert_int_equal(chdir(folder), 0);
    struct pl_problems problems = {0};
    enum pl_status status = pl_file_save("part.json", "new", 3, &problems);
    assert_int_equal(fchdir(here), 0);
    close(here);
    assert_int_equal(status, PL_OK);
    assert_file("part.json", "new");
}

static void a_name_as_long_as_names_may_be_is_saved(void **state)
{
    (void)state;
    char name[256];
    memset(name, 'n', 255);
    name[255] = '\0';
    assert_saves(in_folder(name), "new");
    assert_saves(in_folder(name), "newer");
    assert_file(name, "newer");
    assert_int_equal(count_in_folder(folder), 1);
}

/* ---- when a call fails ---- */

enum call { OPEN, READ, WRITE, FSYNC, CLOSE, RENAME, NO_CALL };

static struct {
    enum call call;
    int nth, error, seen;
    int interruptions; /* of every call, before it is let through */
    size_t at_most;    /* bytes a read or write does */
} fault;

static int interrupted_left;
static int made_flags; /* of the last open that makes a file */
static mode_t made_mode;

static bool fails(enum call call)
{
    if (interrupted_left > 0) {
        interrupted_left--;
        errno = EINTR;
        return true;
    }
    interrupted_left = fault.interruptions;
    if (call != fault.call || ++fault.seen != fault.nth)
        return false;
    errno = fault.error;
    return true;
}

static int faulty_open(const char *path, int flags, mode_t mode)
{
    if (flags & O_CREAT) {
        made_flags = flags;
        made_mode = mode;
    }
    return fails(OPEN) ? -1 : open(path, flags, mode);
}

static ssize_t faulty_read(int fd, void *to, size_t size)
{
    return fails(READ) ? -1 : read(fd, to, size < fault.at_most ? size : fault.at_most);
}

static ssize_t faulty_write(int fd, const void *from, size_t size)
{
    return fails(WRITE) ? -1 : write(fd, from, size < fault.at_most ? size : fault.at_most);
}

static int faulty_fsync(int fd)
{
    return fails(FSYNC) ? -1 : fsync(fd);
}

static int faulty_close(int fd)
{
    bool failing = fails(CLOSE);
    int error = errno;
    close(fd); /* a descriptor is gone whatever close says */
    interrupted_left = failing && error == EINTR ? fault.interruptions : interrupted_left;
    errno = error;
    return failing ? -1 : 0;
}

static int faulty_rename(const char *from, const char *to)
{
    interrupted_left = 0; /* rename is never interrupted */
    return fails(RENAME) ? -1 : rename(from, to);
}

static const struct pl_file_calls faulty = {faulty_open,  faulty_read,  faulty_write,
                                            faulty_fsync, faulty_close, faulty_rename};

static void set_fault(enum call call, int nth, int error, size_t at_most)
{
    memset(&fault, 0, sizeof fault);
    fault.call = call;
    fault.nth = nth;
    fault.error = error;
    fault.at_most = at_most;
    interrupted_left = 0;
}

static void whatever_fails_while_saving_the_old_file_is_whole(void **state)
{
    (void)state;
    static const struct {
        enum call call;
        int nth, error;
        const char *sentence;
    } table[] = {
        {OPEN, 1, EMFILE, "its folder cannot be opened: Too many open files"},
        {OPEN, 2, ENOSPC, "no new file can be made in its folder: No space left on device"},
        {WRITE, 1, ENOSPC, "cannot be saved: No space left on device"},
        {WRITE, 2, EIO, "cannot be saved: Input/output error"}, /* after a short write */
        {FSYNC, 1, EDQUOT, "cannot be saved: Disk quota exceeded"},
        {CLOSE, 1, EIO, "cannot be saved: Input/output error"},
        {RENAME, 1, EXDEV, "cannot be saved: Invalid cross-device link"},
    };
    for (int exists = 1; exists >= 0; exists--) {
        if (exists)
            put("part.json", "old");
        else
            assert_int_equal(unlink(in_folder("part.json")), 0);
        for (size_t i = 0; i < sizeof table / sizeof table[0]; i++) {
            struct pl_problems problems = {0};
            set_fault(table[i].call, table[i].nth, table[i].error, 2);
            assert_int_equal(pl_file_save_by(&faulty, in_folder("part.json"), "newer", 5, &problems), PL_CANNOT_WRITE);
            assert_sentence(&problems, table[i].sentence);
            assert_true(fault.seen >= table[i].nth);
            assert_int_equal(count_in_folder(folder), exists);
            if (exists)
                assert_file("part.json", "old");
        }
    }
}

static void a_folder_that_cannot_be_synced_is_said_though_the_file_is_saved(void **state)
{
    (void)state;
    struct pl_problems problems = {0};
    put("part.json", "old");
    set_fault(FSYNC, 2, EIO, 100);
    assert_int_equal(pl_file_save_by(&faulty, in_folder("part.json"), "new", 3, &problems), PL_CANNOT_WRITE);
    assert_sentence(&problems, "is saved, but its folder cannot be synced: Input/output error");
    assert_file("part.json", "new");
    assert_int_equal(count_in_folder(folder), 1);
    set_fault(FSYNC, 2, EINVAL, 100); /* a file system without the notion */
    assert_int_equal(pl_file_save_by(&faulty, in_folder("part.json"), "newer", 5, &problems), PL_OK);
    assert_file("part.json", "newer");
}

static void a_file_being_saved_is_new_and_private_until_it_has_its_permissions(void **state)
{
    (void)state;
    struct pl_problems problems = {0};
    set_fault(NO_CALL, 0, 0, 100);
    assert_int_equal(pl_file_save_by(&faulty, in_folder("part.json"), "old", 3, &problems), PL_OK);
    assert_int_equal(made_flags & (O_EXCL | O_NOFOLLOW | O_CLOEXEC), O_EXCL | O_NOFOLLOW | O_CLOEXEC);
    assert_int_equal(made_mode, 0666); /* less the umask */
    assert_int_equal(pl_file_save_by(&faulty, in_folder("part.json"), "new", 3, &problems), PL_OK);
    assert_int_equal(made_mode, 0600);
}

static void a_name_that_is_taken_is_not_used_again(void **state)
{
    (void)state;
    struct pl_problems problems = {0};
    set_fault(OPEN, 2, EEXIST, 100);
    assert_int_equal(pl_file_save_by(&faulty, in_folder("part.json"), "new", 3, &problems), PL_OK);
    assert_int_equal(fault.seen, 3);
    assert_file("part.json", "new");
    assert_int_equal(count_in_folder(folder), 1);
}

static void short_writes_and_interruptions_lose_nothing(void **state)
{
    (void)state;
    struct pl_problems problems = {0};
    set_fault(NO_CALL, 0, 0, 1);
    fault.interruptions = 2;
    interrupted_left = 2;
    assert_int_equal(pl_file_save_by(&faulty, in_folder("part.json"), "every byte", 10, &problems), PL_OK);
    assert_file("part.json", "every byte");
    char *bytes;
    size_t length;
    interrupted_left = 2;
    assert_int_equal(pl_file_read_by(&faulty, in_folder("part.json"), &bytes, &length, &problems), PL_OK);
    assert_int_equal(length, 10);
    assert_string_equal(bytes, "every byte");
    free(bytes);
}

static void a_read_that_fails_half_way_gives_nothing(void **state)
{
    (void)state;
    struct pl_problems problems = {0};
    char *bytes;
    size_t length;
    put("part.json", "{\"a\": 1}");
    set_fault(READ, 3, EIO, 2);
    assert_int_equal(pl_file_read_by(&faulty, in_folder("part.json"), &bytes, &length, &problems), PL_CANNOT_READ);
    assert_null(bytes);
    assert_sentence(&problems, "cannot be read: Input/output error");
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, make, unmake)

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(a_file_is_read_whole),
        TEST(bytes_of_any_kind_are_read),
        TEST(what_is_no_regular_file_is_refused_without_waiting),
        TEST(sixteen_megabytes_are_read_and_one_byte_more_is_not),
        TEST(a_file_that_is_not_ours_to_read_is_refused),
        TEST(standard_input_may_be_a_pipe_up_to_the_limit),
        TEST(a_new_file_gets_the_usual_permissions),
        TEST(an_old_file_keeps_its_permissions),
        TEST(an_old_file_keeps_its_owner_where_we_may),
        TEST(a_group_that_cannot_be_kept_gets_no_rights_of_the_old_one),
        TEST(a_link_stays_and_its_target_is_replaced),
        TEST(a_link_to_nothing_yet_gets_its_target),
        TEST(what_is_no_regular_file_is_not_saved_over),
        TEST(a_folder_that_is_not_there_is_named_as_the_reason),
        TEST(a_read_only_file_is_not_replaced),
        TEST(a_folder_without_write_permission_takes_no_file_but_one_without_read_permission_does),
        TEST(a_name_without_a_folder_is_saved_where_we_are),
        TEST(a_name_as_long_as_names_may_be_is_saved),
        TEST(whatever_fails_while_saving_the_old_file_is_whole),
        TEST(a_folder_that_cannot_be_synced_is_said_though_the_file_is_saved),
        TEST(a_file_being_saved_is_new_and_private_until_it_has_its_permissions),
        TEST(a_name_that_is_taken_is_not_used_again),
        TEST(short_writes_and_interruptions_lose_nothing),
        TEST(a_read_that_fails_half_way_gives_nothing),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
