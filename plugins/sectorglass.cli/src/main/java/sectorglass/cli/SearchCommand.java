package sectorglass.cli;

import java.io.IOException;
import java.io.PrintStream;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.util.Optional;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicBoolean;

import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import sectorglass.image.OpenImage;
import sectorglass.image.Progress;
import sectorglass.recovery.ContentLook;
import sectorglass.recovery.ContentSampler;
import sectorglass.recovery.JobFile;
import sectorglass.recovery.LostSearch;
import sectorglass.recovery.SearchResult;
import sectorglass.recovery.SearchStore;
import sectorglass.recovery.SearchTexts;
import sectorglass.report.JsonOut;
import sectorglass.report.SearchJson;

/** Finds lost structures. */
@Command(description = {"Scans all that was read of the image for boot sectors, superblocks, file records, partition tables and their copies, and prints",
    "the volumes they tell of, with start, size and reasons. With --job a search that was stopped goes on where it was, and a finished one is",
    "printed without searching again."})
final class SearchCommand extends ImageCommand {

    @Option(names = "--again", description = "Searches anew although the job file holds a result.")
    private boolean again;

    @Option(names = "--all", description = "Lists every structure met, not only the volumes they tell of.")
    private boolean all;

    @Option(names = "--content", description = {"Adds what a disk looks like of which nothing is known: entropy along its length, signatures that",
        "repeat with their stride, text."})
    private boolean content;

    SearchCommand(PrintStream out, PrintStream err) {
        super(out, err);
    }

    @Override
    int run(OpenImage opened) throws CommandException {
        JobFile job = job();
        SearchStore store = new SearchStore(job);
        SearchResult result = result(opened, job, store);
        ContentLook look = content || result.volumes().isEmpty() ? ContentSampler.of(opened, progress()) : null;
        SearchTexts texts = new SearchTexts(locale());
        if (json) {
            try (JsonOut to = new JsonOut(out)) {
                SearchJson.write(result, look, texts, to);
            }
        } else {
            SearchText text = new SearchText(out, texts, result);
            text.volumes();
            text.candidates(all);
            if (look != null) {
                text.look(look);
            }
        }
        return Status.DONE;
    }

    private SearchResult result(OpenImage opened, JobFile job, SearchStore store) throws CommandException {
        try {
            if (again) {
                store.forget();
            }
            Optional<SearchResult> known = store.result().filter(r -> r.bytes() == opened.bytes() && r.complete());
            if (known.isPresent() && store.position() == 0) {
                return known.get();
            }
            CountDownLatch ended = new CountDownLatch(1);
            try {
                return LostSearch.of(survey(opened), job, stoppable(ended));
            } finally {
                ended.countDown();
            }
        } catch (UncheckedIOException e) {
            throw new CommandException(Status.OUTPUT, "The job file could not be written: " + e.getCause().getMessage());
        }
    }

    private JobFile job() throws CommandException {
        Path file = source.job();
        try {
            return file == null ? null : JobFile.open(file);
        } catch (IOException e) {
            throw new CommandException(Status.USE, e.getMessage());
        }
    }

    /** An interrupt ends the search in order, so that the job file holds what was met. */
    private Progress stoppable(CountDownLatch ended) {
        Progress shown = progress();
        AtomicBoolean stop = new AtomicBoolean();
        if (source.job() != null) {
            Runtime.getRuntime().addShutdownHook(new Thread(() -> {
                stop.set(true);
                try {
                    ended.await(10, TimeUnit.SECONDS);
                } catch (InterruptedException e) {
                    Thread.currentThread().interrupt();
                }
            }, "stop the search"));
        }
        return new Progress() {
            @Override
            public boolean cancelled() {
                return stop.get() || shown.cancelled();
            }

            @Override
            public void at(String what, long done, long total) {
                shown.at(what, done, total);
            }
        };
    }
}
