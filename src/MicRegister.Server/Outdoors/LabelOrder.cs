using System.Security.Cryptography;
using MicRegister.Documents.Labels;
using MicRegister.Register;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Register.Labels;

namespace MicRegister.Server.Outdoors;

/// <summary>Which labels are wanted: of devices, of a campaign's stations, or blank ones ahead.</summary>
/// <param name="Kind">Key of a kind of device; null for any.</param>
/// <param name="Serials">Serial numbers; empty for all.</param>
/// <param name="Campaign">Id of a campaign: labels of its stations.</param>
/// <param name="Blank">So many blank labels; null for none.</param>
public sealed record LabelOrder(string? Kind, IReadOnlyList<string> Serials, string? Campaign, int? Blank)
{
    /// <summary>Ids of devices, whatever state they are in; empty for those of the kind and serials.</summary>
    public IReadOnlyList<string> Ids { get; init; } = [];

    /// <summary>Most blank labels at once.</summary>
    public const int MostBlank = 5000;

    private static string Folder => Path.Combine(AppContext.BaseDirectory, "labels");

    /// <summary>The layouts that come with the program, in order of their names.</summary>
    public static IReadOnlyList<LabelLayout> Layouts() =>
    [
        .. Directory.GetFiles(Folder, "*.layout").Order(StringComparer.Ordinal)
            .Select(f => LabelLayout.Read(File.ReadAllText(f), Path.GetFileNameWithoutExtension(f))),
    ];

    /// <summary>A layout of that name; null where there is none.</summary>
    public static LabelLayout? Layout(string name) => Layouts().FirstOrDefault(l => l.Name == name);

    /// <summary>Labels that have a code: blank ones get new codes that were never used.</summary>
    public IReadOnlyList<LabelContent> Labels(Register.Register register) =>
        Blank is { } count
            ? [.. Enumerable.Range(0, count).Select(_ => new LabelContent(Draw(register), new Dictionary<string, string>()))]
        : Campaign is { } campaign
            ? [.. Stations(register, campaign).Where(s => s.Code is not null)
                .Select(s => Content(register, campaign, s.Station, s.Code!))]
        : [.. Devices(register).Where(d => d.Label is not null).Select(Content)];

    /// <summary>How many of them have no code yet.</summary>
    public int Missing(Register.Register register) =>
        Blank is not null ? 0
        : Campaign is { } campaign ? Stations(register, campaign).Count(s => s.Code is null)
        : Devices(register).Count(d => d.Label is null);

    /// <summary>Draws and binds a code for each that has none.</summary>
    public Result<IReadOnlyList<Fact>> Bind(Register.Register register, Saying saying)
    {
        var facts = new List<Fact>();
        // Several at one time by one client: the counter tells them apart.
        Saying Next() => saying with { Stamp = saying.Stamp with { Counter = saying.Stamp.Counter + facts.Count } };
        var bound = Campaign is { } campaign
            ? Stations(register, campaign).Where(s => s.Code is null)
                .Select(s => LabelBook.BindStation(register, Next(), Draw(register).Text, campaign, s.Station))
            : Devices(register).Where(d => d.Label is null).Select(d => LabelBook.Bind(register, Next(), Draw(register).Text, d.Id));
        foreach (var one in bound)
        {
            if (one is Result<IReadOnlyList<Fact>>.Rejected rejected) return rejected.Why;
            facts.AddRange(((Result<IReadOnlyList<Fact>>.Accepted)one).Value);
        }
        return facts.Count == 0
            ? new Rejection(RejectionSort.Invalid, "None of them lacks a label.")
            : new Result<IReadOnlyList<Fact>>.Accepted(facts);
    }

    // Who names a device by its id means that one.
    private IEnumerable<DeviceState> Devices(Register.Register register) => (Ids.Count > 0
        ? Ids.Select(id => register.Device(id)).OfType<DeviceState>().DistinctBy(d => d.Id)
        : register.DeviceIds.Select(id => register.Device(id)!).Where(d => (Kind is null || d.Kind == Kind) && d.Status != DeviceStatus.Retired
            && (Serials.Count == 0 || Serials.Any(s => DeviceIdentity.Normal(s) == DeviceIdentity.Normal(d.Serial)))))
        .OrderBy(d => d.Serial, StringComparer.Ordinal).ThenBy(d => d.Id, StringComparer.Ordinal);

    private static IEnumerable<(string Station, string? Code)> Stations(Register.Register register, string campaign) =>
        register.Campaign(campaign) is { } state ? state.Stations.Keys.Select(s => (s, state.Labels.GetValueOrDefault(s))) : [];

    private static LabelCode Draw(Register.Register register)
    {
        LabelCode code;
        do code = LabelCode.Draw(RandomNumberGenerator.GetBytes); while (LabelBook.WasUsed(register, code));
        return code;
    }

    private static LabelContent Content(Register.Register register, string campaign, string station, string text)
    {
        LabelCode.TryRead(text, out var code, out _);
        return new(code, new Dictionary<string, string>
        {
            ["kind"] = "Station",
            ["station"] = station,
            ["campaign"] = register.Campaign(campaign)!.Name,
        });
    }

    // What a finder needs; never a due day, which goes stale.
    private static LabelContent Content(DeviceState device)
    {
        LabelCode.TryRead(device.Label, out var code, out _);
        var values = new Dictionary<string, string>();
        var known = new[]
        {
            ("kind", DeviceKind.Find(device.Kind)?.Label), ("model", device.Model), ("serial", device.Serial),
            ("response", device.Text(DeviceField.ResponseType)), ("owner", device.Text(DeviceField.Owner)),
        };
        foreach (var (field, value) in known)
        {
            if (!string.IsNullOrWhiteSpace(value)) values[field] = value;
        }
        return new(code, values);
    }
}
