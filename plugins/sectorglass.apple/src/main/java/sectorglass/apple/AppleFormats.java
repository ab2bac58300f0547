package sectorglass.apple;

import org.osgi.service.component.annotations.Component;

import aQute.bnd.annotation.Resolution;
import aQute.bnd.annotation.spi.ServiceProvider;
import sectorglass.decode.BundleFormats;
import sectorglass.decode.FormatFolder;

/** The specs of this bundle's structures. */
@Component(service = FormatFolder.class)
@ServiceProvider(value = FormatFolder.class, resolution = Resolution.OPTIONAL)
public final class AppleFormats extends BundleFormats {

    /** The folder of this bundle. */
    public AppleFormats() {
        super("sectorglass.apple");
    }
}
