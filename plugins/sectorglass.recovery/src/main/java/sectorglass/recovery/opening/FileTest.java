package sectorglass.recovery.opening;

import java.io.IOException;
import java.util.List;

import org.osgi.annotation.versioning.ConsumerType;

/**
 * Tests files of some kinds by their content. A provider; see {@code Providers}. Safe for several threads. Called with hostile bytes: loops and
 * allocations must be bounded by the file's true length; time is bounded by the reads from {@link TestedFile}.
 */
@ConsumerType
public interface FileTest {

    /** The types it can test, the most particular first. */
    List<FileType> types();

    /** Tests whose types are recognised by little, such as text, come last: those with higher numbers. */
    default int rank() {
        return 0;
    }

    /**
     * Tests a file whose beginning is of the type.
     *
     * @return what was found
     * @throws IOException a library's complaint about the content: counts as damage
     * @throws RuntimeException likewise
     */
    TestResult test(FileType type, TestedFile file) throws IOException;
}
