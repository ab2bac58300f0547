package sectorglass.decode;

/** Build step: writes {@code index} into a folder of specs. */
public final class IndexWriter {

    private IndexWriter() {
    }

    /** @param args the folder */
    public static void main(String[] args) {
        // written with the catalogue
    }
}
