package sectorglass.decode.internal.run;

import io.kaitai.struct.KaitaiStream;

/** The runtime's stream without its writing half: an image is never written. */
abstract class ReadOnlyStream extends KaitaiStream {

    private static UnsupportedOperationException readOnly() {
        return new UnsupportedOperationException("an image is never written");
    }

    @Override
    public void writeS1(byte value) {
        throw readOnly();
    }

    @Override
    public void writeS2be(short value) {
        throw readOnly();
    }

    @Override
    public void writeS4be(int value) {
        throw readOnly();
    }

    @Override
    public void writeS8be(long value) {
        throw readOnly();
    }

    @Override
    public void writeS2le(short value) {
        throw readOnly();
    }

    @Override
    public void writeS4le(int value) {
        throw readOnly();
    }

    @Override
    public void writeS8le(long value) {
        throw readOnly();
    }

    @Override
    public void writeF4be(float value) {
        throw readOnly();
    }

    @Override
    public void writeF8be(double value) {
        throw readOnly();
    }

    @Override
    public void writeF4le(float value) {
        throw readOnly();
    }

    @Override
    public void writeF8le(double value) {
        throw readOnly();
    }

    @Override
    protected void writeBytesNotAligned(byte[] value) {
        throw readOnly();
    }
}
