package sectorglass.image;

import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;

/**
 * A file format that wraps or packs a disk instead of being its sectors, told by its published signature.
 *
 * @param name as its specification names it
 * @param source where the signature is defined; "from memory" where it was not looked up
 * @param offset of the signature; negative: from the end of the file
 * @param signature the bytes; -1 stands for any byte
 */
public record ContainerKind(String name, String source, int offset, int... signature) {
    /** Bytes of the head of a file that {@link #of} wants to see. */
    static final int HEAD = 512;

    private static final String MEMORY = ", from memory";

    private static final List<ContainerKind> ALL = List.of(
            at("gzip compressed data", "RFC 1952, section 2.3.1" + MEMORY, 0, 0x1F, 0x8B, 0x08),
            at("xz compressed data", "The .xz File Format 1.1.0, section 2.1.1.1" + MEMORY, 0, 0xFD, 0x37, 0x7A, 0x58, 0x5A, 0x00),
            at("bzip2 compressed data", "bzip2 block header, 48 bits of pi" + MEMORY, 0, 'B', 'Z', 'h', -1, 0x31, 0x41, 0x59, 0x26, 0x53, 0x59),
            at("Zstandard compressed data", "RFC 8878, section 3.1.1" + MEMORY, 0, 0x28, 0xB5, 0x2F, 0xFD),
            at("LZ4 compressed data", "LZ4 Frame Format, general structure" + MEMORY, 0, 0x04, 0x22, 0x4D, 0x18),
            at("lzip compressed data", "RFC draft-diaz-lzip, file format" + MEMORY, 0, 'L', 'Z', 'I', 'P', 0x01),
            at("compress (LZW) compressed data", "ncompress" + MEMORY, 0, 0x1F, 0x9D),
            at("7z archive", "7z format description, signature header" + MEMORY, 0, 0x37, 0x7A, 0xBC, 0xAF, 0x27, 0x1C),
            at("ZIP archive", "APPNOTE.TXT, section 4.3.7" + MEMORY, 0, 'P', 'K', 0x03, 0x04),
            text("RAR archive", "RAR technical note, signature" + MEMORY, 0, "Rar!\u001A\u0007"),
            text("tar archive", "POSIX.1-2017, pax, ustar interchange format" + MEMORY, 257, "ustar"),
            at("qcow virtual disk", "QEMU documentation, interop/qcow2" + MEMORY, 0, 'Q', 'F', 'I', 0xFB),
            text("VMDK virtual disk", "Virtual Disk Format 5.0, sparse extent header" + MEMORY, 0, "KDMV"),
            text("VMDK virtual disk", "Virtual Disk Format 1.1, copy-on-write extent" + MEMORY, 0, "COWD"),
            text("VMDK virtual disk description", "Virtual Disk Format 5.0, descriptor file" + MEMORY, 0, "# Disk DescriptorFile"),
            text("VHDX virtual disk", "MS-VHDX, section 2.2.1" + MEMORY, 0, "vhdxfile"),
            text("VHD virtual disk", "Virtual Hard Disk Image Format Specification, hard disk footer" + MEMORY, 0, "conectix"),
            text("VHD virtual disk", "Virtual Hard Disk Image Format Specification, hard disk footer" + MEMORY, -512, "conectix"),
            at("VDI virtual disk", "VDI pre-header, image signature" + MEMORY, 64, 0x7F, 0x10, 0xDA, 0xBE),
            at("Expert Witness Compression Format evidence file", "Expert Witness Compression Format, file header" + MEMORY, 0,
                    'E', 'V', 'F', 0x09, 0x0D, 0x0A, 0xFF, 0x00),
            at("Expert Witness Compression Format 2 evidence file", "Expert Witness Compression Format 2, file header" + MEMORY, 0,
                    'E', 'V', 'F', '2', 0x0D, 0x0A, 0x81, 0x00),
            at("Expert Witness Compression Format logical evidence file", "Expert Witness Compression Format, file header" + MEMORY, 0,
                    'L', 'V', 'F', 0x09, 0x0D, 0x0A, 0xFF, 0x00),
            text("Advanced Forensic Format file", "Advanced Forensic Format, header" + MEMORY, 0, "AFF10\r\n\0"),
            text("Windows Imaging Format file", "Windows Imaging Format, header" + MEMORY, 0, "MSWIM\0\0\0"),
            at("Android sparse image", "Android Open Source Project, sparse_format.h" + MEMORY, 0, 0x3A, 0xFF, 0x26, 0xED),
            text("UDIF disk image", "UDIF trailer (koly block)" + MEMORY, -512, "koly\0\0\0\u0004\0\0\u0002\0"));

    private static ContainerKind at(String name, String source, int offset, int... signature) {
        return new ContainerKind(name, source, offset, signature);
    }

    private static ContainerKind text(String name, String source, int offset, String signature) {
        byte[] bytes = signature.getBytes(StandardCharsets.ISO_8859_1);
        int[] values = new int[bytes.length];
        for (int i = 0; i < bytes.length; i++) {
            values[i] = bytes[i] & 0xFF;
        }
        return new ContainerKind(name, source, offset, values);
    }

    /**
     * The container that a file looks like.
     *
     * @param head the first {@value #HEAD} bytes of the file, or all of it
     * @param tail the last 512 bytes, or all of it
     */
    public static Optional<ContainerKind> of(byte[] head, byte[] tail) {
        return ALL.stream().filter(kind -> kind.offset >= 0 ? kind.stands(head, kind.offset)
                : kind.stands(tail, tail.length + kind.offset)).findFirst();
    }

    private boolean stands(byte[] bytes, int at) {
        if (at < 0 || at + signature.length > bytes.length) {
            return false;
        }
        for (int i = 0; i < signature.length; i++) {
            if (signature[i] >= 0 && signature[i] != (bytes[at + i] & 0xFF)) {
                return false;
            }
        }
        return true;
    }

    /** The signature as hexadecimal bytes, those that may differ as {@code ..}. */
    String words() {
        StringBuilder text = new StringBuilder();
        for (int value : signature) {
            text.append(text.length() == 0 ? "" : " ").append(value < 0 ? ".." : String.format("%02X", value));
        }
        return text.toString();
    }

    @Override
    public boolean equals(Object other) {
        return other instanceof ContainerKind that && name.equals(that.name) && offset == that.offset
                && Arrays.equals(signature, that.signature);
    }

    @Override
    public int hashCode() {
        return name.hashCode() + offset;
    }
}
