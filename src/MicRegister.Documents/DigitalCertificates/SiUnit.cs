namespace MicRegister.Documents.DigitalCertificates;

/// <summary>Units as D-SI writes them, such as \volt\pascal\tothe{-1}.</summary>
internal static class SiUnit
{
    // \decibel is from memory, unchecked; it has no reference of its own.
    private static readonly Dictionary<string, string> Units = new(StringComparer.Ordinal)
    {
        [@"\volt\pascal\tothe{-1}"] = "V/Pa",
        [@"\pascal\tothe{-1}\volt"] = "V/Pa",
        [@"\volt\per\pascal"] = "V/Pa",
        [@"\milli\volt\pascal\tothe{-1}"] = "mV/Pa",
        [@"\pascal\tothe{-1}\milli\volt"] = "mV/Pa",
        [@"\milli\volt\per\pascal"] = "mV/Pa",
        [@"\decibel"] = "dB",
        [@"\hertz"] = "Hz",
        [@"\kilo\hertz"] = "kHz",
        [@"\pascal"] = "Pa",
        [@"\hecto\pascal"] = "hPa",
        [@"\kilo\pascal"] = "kPa",
        [@"\kelvin"] = "K",
        [@"\degreecelsius"] = "°C",
        [@"\percent"] = "%",
        [@"\one"] = "1",
    };

    /// <summary>The unit as people write it; null where it is not known.</summary>
    public static string? Usual(string unit) => Units.GetValueOrDefault(unit);
}
