package sectorglass.make.ntfs;

import java.io.IOException;

import sectorglass.make.write.VolumeTarget;

/** Writes an NTFS volume. */
public final class NtfsWriter {
    private final VolumeTarget target;

    /** For one volume. */
    public NtfsWriter(VolumeTarget target) {
        this.target = target;
    }

    /** Writes everything. */
    public void write() throws IOException {
        throw new IOException("not yet: " + target.volume().kind());
    }
}
