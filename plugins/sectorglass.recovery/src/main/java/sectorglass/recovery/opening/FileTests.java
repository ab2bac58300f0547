package sectorglass.recovery.opening;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.function.IntPredicate;

import sectorglass.disk.Content;
import sectorglass.disk.FileState;
import sectorglass.image.ByteRange;
import sectorglass.image.Progress;
import sectorglass.image.Providers;
import sectorglass.recovery.outcome.FileKind;
import sectorglass.recovery.outcome.Outcome;

/**
 * Tests files by their content. A file of which something was not read is damaged whatever a decoder thinks of it; one that was read in full
 * is given to the first test that knows its beginning. A test that takes too long, or needs too much memory, says so of this file only.
 */
public final class FileTests {
    /** Seconds a file may take. */
    public static final int SECONDS = 120;

    private final List<FileTest> tests;
    private final int seconds;

    /** @param seconds time for one file */
    public FileTests(List<FileTest> tests, int seconds) {
        this.tests = tests.stream().sorted(java.util.Comparator.comparingInt(FileTest::rank)).toList();
        this.seconds = seconds;
    }

    /** All provided tests. */
    public static FileTests ofProviders() {
        return new FileTests(Providers.all(FileTest.class), SECONDS);
    }

    /** All types that can be tested, in the order in which they are tried. */
    public List<FileType> types() {
        return tests.stream().flatMap(test -> test.types().stream()).toList();
    }

    /**
     * Tests a file.
     *
     * @param state what was recovered of it
     * @throws Progress.Stopped if the person stopped it
     */
    public TestResult test(String name, Content content, FileState state, Progress progress) {
        if (state == FileState.ENCRYPTED || state == FileState.ELSEWHERE || content == null || content.bytes() < 0) {
            return TestResult.notTested(state == FileState.ENCRYPTED ? "test.encrypted" : state == FileState.ELSEWHERE ? "test.elsewhere" : "test.unknown");
        }
        if (content.bytes() == 0) {
            return TestResult.notTested("test.empty");
        }
        List<ByteRange> missing = content.missing();
        byte[] head = new byte[(int) Math.min(FileType.HEAD, content.bytes())];
        boolean headRead = content.read(0, head, 0, head.length).isEmpty();
        TestResult unread = missing.isEmpty() ? null : TestResult.damaged("test.missing", missing.stream().mapToLong(ByteRange::length).sum());
        if (!headRead) {
            return unread != null ? unread : TestResult.damaged("test.missing", head.length);
        }
        for (FileTest test : tests) {
            for (FileType type : test.types()) {
                if (type.recognises().test(head)) {
                    boolean fits = fits(type, name);
                    return (unread != null ? unread : run(test, type, name, content, progress)).about(type, fits);
                }
            }
        }
        return unread != null ? unread : namedOtherwise(name);
    }

    /** Content that no test knows, though files of such names have a type: then the beginning is not what it should be. */
    private TestResult namedOtherwise(String name) {
        String ending = FileKind.ending(name);
        List<String> known = types().stream().filter(type -> type.endings().contains(ending)).map(FileType::name).toList();
        return ending.isEmpty() || known.isEmpty() ? TestResult.notTested("test.none")
                : TestResult.damaged("test.beginning", String.join(", ", known));
    }

    private boolean fits(FileType type, String name) {
        String ending = FileKind.ending(name);
        return ending.isEmpty() || type.endings().contains(ending) || types().stream().noneMatch(t -> t.endings().contains(ending));
    }

    private TestResult run(FileTest test, FileType type, String name, Content content, Progress progress) {
        try {
            return test.test(type, new TestedFile(name, content, seconds, progress));
        } catch (TestedFile.End e) {
            return e.result();
        } catch (Progress.Stopped e) {
            throw e;
        } catch (TestedFile.EndOfFile e) {
            return TestResult.damaged("test.short", e.getMessage());
        } catch (IOException | RuntimeException e) {
            return ended(e);
        } catch (StackOverflowError | OutOfMemoryError | NoClassDefFoundError e) {
            return TestResult.notTested("test.limits");
        }
    }

    /** A library may have wrapped what ended the test. */
    private static TestResult ended(Exception e) {
        int steps = 0;
        for (Throwable cause = e; cause != null && steps < 20; cause = cause.getCause(), steps++) {
            if (cause instanceof TestedFile.End end) {
                return end.result();
            }
            if (cause instanceof Progress.Stopped stopped) {
                throw stopped;
            }
        }
        String message = e.getMessage();
        return TestResult.damaged("test.complaint", message == null ? e.getClass().getSimpleName()
                : message.length() > 200 ? message.substring(0, 200) + "\u2026" : message);
    }

    /**
     * Tests many files of a volume, several at once.
     *
     * @param wanted which files
     * @return a result per entry of the tree; null where none was wanted
     */
    public TestResult[] testAll(Outcome outcome, IntPredicate wanted, int threads, Progress progress) {
        TestResult[] results = new TestResult[outcome.tree().size()];
        int[] entries = new int[results.length];
        int[] count = {0};
        outcome.tree().walk(outcome.tree().root(), (entry, depth) -> {
            if (!outcome.tree().folder(entry) && wanted.test(entry)) {
                entries[count[0]++] = entry;
            }
            return true;
        });
        int[] files = Arrays.copyOf(entries, count[0]);
        java.util.concurrent.atomic.AtomicInteger next = new java.util.concurrent.atomic.AtomicInteger();
        ExecutorService pool = Executors.newFixedThreadPool(threads, task -> {
            Thread thread = new Thread(task, "file test");
            thread.setDaemon(true);
            return thread;
        });
        try {
            List<Future<?>> all = new ArrayList<>();
            for (int i = 0; i < threads; i++) {
                all.add(pool.submit(() -> {
                    for (int at = next.getAndIncrement(); at < files.length; at = next.getAndIncrement()) {
                        progress.checkCancelled();
                        int entry = files[at];
                        results[entry] = test(outcome.tree().name(entry), outcome.files().content(entry, ""), outcome.state(entry), progress);
                        progress.at("tested " + outcome.tree().name(entry), at + 1, files.length);
                    }
                }));
            }
            for (Future<?> one : all) {
                one.get();
            }
            return results;
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new Progress.Stopped();
        } catch (ExecutionException e) {
            if (e.getCause() instanceof Progress.Stopped stopped) {
                throw stopped;
            }
            throw new IllegalStateException(e.getCause());
        } finally {
            pool.shutdownNow();
        }
    }
}
