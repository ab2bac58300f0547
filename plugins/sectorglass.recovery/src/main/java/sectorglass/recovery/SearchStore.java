package sectorglass.recovery;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.Optional;

/** Keeps the state and the result of a search for lost structures in a job file. */
public final class SearchStore {
    private static final String STATE = "structures-so-far";
    private static final String RESULT = "structures";

    private final JobFile job;

    /** @param job where to keep them, or null to keep nothing */
    public SearchStore(JobFile job) {
        this.job = job;
    }

    /** The result of the last search that came to its end; empty where there is none, or none that this version understands. */
    public Optional<SearchResult> result() {
        return Optional.ofNullable(read(RESULT, SearchResult.class));
    }

    /** Image byte up to which an unfinished search came; 0 where there is none. */
    public long position() {
        ScanState state = state();
        return state == null ? 0 : state.position();
    }

    /** Forgets result and state: the next search begins at the first sector. */
    public void forget() {
        update(null, null);
    }

    ScanState state() {
        return read(STATE, ScanState.class);
    }

    void keep(ScanState state) {
        if (job != null) {
            update(state, null);
        }
    }

    void keep(SearchResult result) {
        update(null, result);
    }

    private <T> T read(String key, Class<T> type) {
        try {
            Object stored = job == null ? null : JobFile.open(job.file()).job().search().get(key);
            return stored == null ? null : JobFile.JSON.convertValue(stored, type);
        } catch (IllegalArgumentException | IOException e) {
            return null;
        }
    }

    private void update(Object state, Object result) {
        if (job == null) {
            return;
        }
        try {
            // others write marks and notes into the same file meanwhile: what stands in it now is what is changed
            JobFile.open(job.file()).update(j -> j.withSearch(STATE, state).withSearch(RESULT, result));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
