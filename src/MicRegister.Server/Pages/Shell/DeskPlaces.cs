using MicRegister.Server.Accounts;
using MudBlazor;

namespace MicRegister.Server.Pages.Shell;

/// <summary>A page that stands in the rail.</summary>
/// <param name="Address">Its address, without the slash before it.</param>
/// <param name="Label">Its name.</param>
/// <param name="Icon">Its picture, beside the name and never instead of it.</param>
/// <param name="Words">Other words by which people look for it.</param>
internal sealed record DeskPlace(string Address, string Label, string Icon, string Words)
{
    /// <summary>Whether somebody with these duties may open it.</summary>
    public bool IsFor(Duties held) => DutyTable.OfPage("/" + Address) is { } asked && held.Meets(asked);
}

/// <summary>What the desk is made of, by what people do there; the rail, the bar of phones and the search read this one list.</summary>
internal static class DeskPlaces
{
    public static IReadOnlyList<(string Name, IReadOnlyList<DeskPlace> Places)> Groups { get; } =
    [
        ("Work",
        [
            new("", "Today", Icons.Material.Outlined.Today, "start wants doing deadlines due weeks"),
            new("campaigns", "Campaigns", Icons.Material.Outlined.Flag, "readiness array plan"),
            new("fleet", "Fleet", Icons.Material.Outlined.ViewList, "devices microphones calibrators list"),
            new("bench", "Bench", Icons.Material.Outlined.Science, "enter certificates results calibration"),
        ]),
        ("Know",
        [
            new("drift", "Drift", Icons.Material.Outlined.ShowChart, "forecast history stability"),
            new("doubts", "In doubt", Icons.Material.Outlined.WarningAmber, "out of tolerance events suspect"),
            new("journal", "Journal", Icons.Material.Outlined.History, "facts who said what annul"),
        ]),
        ("Set up",
        [
            new("profiles", "Requirements", Icons.Material.Outlined.Rule, "profiles limits rules"),
            new("import", "Take over", Icons.Material.Outlined.FileUpload, "import lists spreadsheets files"),
            new("labels", "Labels", Icons.Material.Outlined.QrCode2, "print codes scan"),
            new("people", "People", Icons.Material.Outlined.People, "accounts duties phones"),
        ]),
    ];

    /// <summary>Pages that stand in no rail and are found by the search.</summary>
    public static IReadOnlyList<DeskPlace> Others { get; } =
    [
        new("checks", "Checks with a calibrator", Icons.Material.Outlined.FactCheck, "before after field check"),
        new("tones", "Recorded tones", Icons.Material.Outlined.GraphicEq, "recordings calibration tone wav"),
        new("mounts", "Mount against source", Icons.Material.Outlined.Landscape, "ground plate pole height"),
        new("plan", "Plan a campaign", Icons.Material.Outlined.EditCalendar, "new campaign stations"),
        new("set-ups", "May they be compared?", Icons.Material.Outlined.Compare, "set-ups comparison"),
        new("hand-over", "Bring in what a phone holds", Icons.Material.Outlined.PhoneAndroid, "phone file kit"),
    ];

    /// <summary>All of them.</summary>
    public static IEnumerable<DeskPlace> All => Groups.SelectMany(g => g.Places).Concat(Others);

    /// <summary>What a phone's bar shows; the rest stands under <em>more</em>.</summary>
    public static bool IsInBar(DeskPlace place) => Groups[0].Places.Contains(place);
}
