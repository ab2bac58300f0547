package sectorglass.ntfs;

import org.osgi.service.component.annotations.Component;

import aQute.bnd.annotation.Resolution;
import aQute.bnd.annotation.spi.ServiceProvider;
import sectorglass.decode.BundleFormats;
import sectorglass.decode.FormatFolder;

/** The specs of NTFS structures. */
@Component(service = FormatFolder.class)
@ServiceProvider(value = FormatFolder.class, resolution = Resolution.OPTIONAL)
public final class NtfsFormats extends BundleFormats {

    /** Made by the service loader. */
    public NtfsFormats() {
        super("sectorglass.ntfs");
    }
}
