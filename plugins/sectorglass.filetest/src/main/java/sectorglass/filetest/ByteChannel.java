package sectorglass.filetest;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.NonWritableChannelException;
import java.nio.channels.SeekableByteChannel;

import sectorglass.recovery.opening.TestedFile;

/** A file under test as the unpackers want it. */
final class ByteChannel implements SeekableByteChannel {
    private final TestedFile file;
    private long at;
    private boolean open = true;

    ByteChannel(TestedFile file) {
        this.file = file;
    }

    @Override
    public int read(ByteBuffer into) throws IOException {
        if (at >= file.bytes()) {
            return -1;
        }
        int some = (int) Math.min(into.remaining(), file.bytes() - at);
        into.put(file.bytes(at, some));
        at += some;
        return some;
    }

    @Override
    public int write(ByteBuffer from) {
        throw new NonWritableChannelException();
    }

    @Override
    public long position() {
        return at;
    }

    @Override
    public SeekableByteChannel position(long to) {
        at = to;
        return this;
    }

    @Override
    public long size() {
        return file.bytes();
    }

    @Override
    public SeekableByteChannel truncate(long size) {
        throw new NonWritableChannelException();
    }

    @Override
    public boolean isOpen() {
        return open;
    }

    @Override
    public void close() {
        open = false;
    }
}
