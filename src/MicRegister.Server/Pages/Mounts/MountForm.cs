using MicRegister.Documents.Import;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Mounting;
using MicRegister.Server.Work;

namespace MicRegister.Server.Pages.Mounts;

/// <summary>What stands in the address of the page of mounts, as it was typed.</summary>
/// <param name="Campaign">Id of a campaign; null asks about the usual mounts.</param>
/// <param name="Mount">Word of a mount; null for all.</param>
/// <param name="Source">Word of a source; null for the campaign's, or the usual one.</param>
/// <param name="Numbers">The other fields that hold anything, by name.</param>
internal sealed record MountForm(string? Campaign, string? Mount, string? Source, IReadOnlyDictionary<string, string> Numbers)
{
    /// <summary>Fields that hold a number, with their words, in the order in which they are asked.</summary>
    public static IReadOnlyList<(string Name, string Label)> Fields { get; } =
    [
        ("from", "From, Hz"), ("to", "To, Hz"), ("tolerance", "Tolerance, dB"), ("elevation", "Elevation of the source, °"),
        ("height", "Height of the diaphragm, m"), ("off", "It may be off by, mm"), ("temperature", "Temperature, °C"),
        ("cold", "Coldest, °C"), ("warm", "Warmest, °C"), ("reflection", "The ground returns, 0 to 1"),
    ];

    /// <summary>What is asked, and what of it is no number or no word.</summary>
    public (MountAsk Ask, IReadOnlyList<MountFault> Faults) Read()
    {
        List<MountFault> faults = [];
        return (new()
        {
            Campaign = Campaign,
            Mount = Word<Mount>("mount", Mount),
            Source = Word<SourceClass>("source", Source),
            HeightM = Number("height"),
            FromHz = Number("from"),
            ToHz = Number("to"),
            ToleranceDb = Number("tolerance"),
            ElevationDeg = Number("elevation"),
            TemperatureC = Number("temperature"),
            ColdC = Number("cold"),
            WarmC = Number("warm"),
            Reflection = Number("reflection"),
            HeightOffMm = Number("off"),
        }, faults);

        double? Number(string name)
        {
            if (!Numbers.TryGetValue(name, out var text)) return null;
            if (MeasuredText.TryRead(text, out var number, out _)) return number;
            faults.Add(new(name, text, "a number"));
            return null;
        }

        T? Word<T>(string name, string? text)
            where T : struct, Enum
        {
            if (text is null) return null;
            if (Work.Word<T>.TryParse(text, out var word)) return word.Value;
            faults.Add(new(name, text, string.Join(", ", WordsOfEnumerations.Of(typeof(T)))));
            return null;
        }
    }

    /// <summary>The question of the API that asks the same.</summary>
    public string Query
    {
        get
        {
            (string, string)[] names =
            [
                ("from", "fromHz"), ("to", "toHz"), ("tolerance", "toleranceDb"), ("elevation", "elevationDeg"), ("height", "heightM"),
                ("off", "heightOffMm"), ("temperature", "temperatureC"), ("cold", "coldC"), ("warm", "warmC"), ("reflection", "reflection"),
            ];
            var (ask, _) = Read();
            double?[] values =
            [
                ask.FromHz, ask.ToHz, ask.ToleranceDb, ask.ElevationDeg, ask.HeightM, ask.HeightOffMm, ask.TemperatureC, ask.ColdC,
                ask.WarmC, ask.Reflection,
            ];
            var query = QueryString.Empty;
            foreach (var (name, text) in new[] { ("campaign", Campaign), ("mount", Mount), ("source", Source) })
            {
                if (text is not null) query = query.Add(name, text);
            }
            foreach (var ((_, name), value) in names.Zip(values))
            {
                if (value is { } v) query = query.Add(name, v.ToString("R", System.Globalization.CultureInfo.InvariantCulture));
            }
            return query.ToUriComponent();
        }
    }
}
