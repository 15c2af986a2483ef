using AngleSharp.Dom;
using Bunit;
using MicRegister.Register.Calibration;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Server.Pages.Devices;
using MicRegister.Server.Pages.Inspections;
using MicRegister.Server.Pages.Shell;
using MudBlazor;

namespace MicRegister.Server.Tests.Pages;

/// <summary>What is entered about a device, each in its dialog.</summary>
public sealed class DeviceDialogsTests : PageContext
{
    private readonly List<bool> _open = [];
    private IRenderedComponent<MudDialogProvider> _screen = null!;
    private Action? _shut;

    [Fact]
    public async Task A_certificate_is_entered_and_a_wrong_number_is_told_at_its_field_and_stores_nothing()
    {
        await Known("microphone");
        await Opened<CertificateEntry>();

        await Input(1).InputAsync("twelve");
        await Yes();
        Assert.Equal(1, Live.Now.Count);
        Assert.Equal("true", Input(1).GetAttribute("aria-invalid"));
        Assert.Contains("'twelve' is no number.", Dialog().TextContent, StringComparison.Ordinal);
        Assert.Empty(_open);

        await Input(1).InputAsync("12,5");
        await Yes();
        Assert.Equal(12.5, Live.Now.Device("A1")!.Certificates.Single().InForce!.Value);
        Assert.Equal([false], _open);
    }

    [Fact]
    public async Task What_was_stored_is_said_and_can_be_undone_at_once_and_that_too()
    {
        await Known("microphone");
        await Opened<CertificateEntry>();
        await Input(1).InputAsync("12,5");
        await Yes();

        await Undo("Stored: sensitivity certificate of 2026-08-03.");

        _screen.WaitForAssertion(() => Assert.True(Live.Now.Device("A1")!.Certificates.Single().IsAnnulled));
        await Undo("Taken back.");
        _screen.WaitForAssertion(() => Assert.False(Live.Now.Device("A1")!.Certificates.Single().IsAnnulled));
    }

    [Fact]
    public async Task A_result_is_shown_beside_what_was_expected_before_it_is_stored()
    {
        await Steady();
        await Opened<CertificateEntry>();
        Assert.Empty(_screen.FindAll(".expected"));

        await Input(1).InputAsync("12,5");
        await Input(2).InputAsync("0,06");

        // All eight results were 12.5 mV/Pa, which is 20 lg 0.0125 = -38.062 dB.
        var line = _screen.Find(".expected").TextContent;
        Assert.Contains("expected −38.062 dB", line.ReplaceLineEndings(" "), StringComparison.Ordinal);
        Assert.Contains("deviation", line, StringComparison.Ordinal);
        Assert.Contains("● 0.0 sigma", line, StringComparison.Ordinal);
        await Input(1).InputAsync("13,5");
        Assert.Contains("sigma from what was expected", _screen.Find(".expected").TextContent, StringComparison.Ordinal);
        Assert.Equal(8, Live.Now.Device("A1")!.Certificates.Length);
    }

    [Fact]
    public async Task A_result_that_does_not_fit_is_asked_about_once_before_it_is_stored()
    {
        await Steady();
        await Opened<CertificateEntry>();
        async Task Enter(string value)
        {
            await Input(1).InputAsync(value);
            await Input(2).InputAsync("0,06");
            await Yes();
        }

        await Enter("13,5");
        Assert.Contains("does not fit", Dialog().TextContent, StringComparison.Ordinal);
        Assert.Equal(8, Live.Now.Device("A1")!.Certificates.Length);
        await Enter("13,6"); // something else that does not fit: asked again
        Assert.Equal(8, Live.Now.Device("A1")!.Certificates.Length);
        await Enter("13,6");
        Assert.Equal(13.6, Live.Now.Device("A1")!.Certificates[^1].InForce!.Value);
    }

    [Fact]
    public async Task Saying_one_thing_takes_nothing_back_that_another_said_meanwhile()
    {
        await Known("microphone");
        var entry = await Opened<StateEntry>();
        await Meanwhile(Of(new DeviceStatusChanged(DeviceStatus.OutOfService, "dropped"), "2026-08-01", 1));
        entry.Render(p => p.Add(s => s.Device, Live.Now.Device("A1")!));
        _screen.WaitForAssertion(() => Assert.Equal("OutOfService", _screen.Find("select").GetAttribute("value")));

        // What follows may still be drawing: an element is found and acted on in its turn, or it may be gone in between.
        await _screen.InvokeAsync(() => Input(0).InputAsync("bench 2"));
        await _screen.InvokeAsync(Yes);
        // What was said meanwhile was shown first.
        if (Live.Now.Device("A1")!.Place is null) await _screen.InvokeAsync(Yes);

        Assert.Equal((DeviceStatus.OutOfService, "bench 2"), (Live.Now.Device("A1")!.Status, Live.Now.Device("A1")!.Place));
    }

    [Fact]
    public async Task State_place_and_reason_are_said_together_and_undone_together()
    {
        await Known("microphone");
        await Opened<StateEntry>();
        await Yes();
        Assert.Contains("Nothing was changed", Dialog().TextContent, StringComparison.Ordinal);

        await _screen.Find("select").ChangeAsync("Away");
        await Input(0).InputAsync("laboratory");
        await Input(1).InputAsync("for its calibration");
        await Yes();
        var device = Live.Now.Device("A1")!;
        Assert.Equal(
            (DeviceStatus.Away, "for its calibration", "laboratory"), (device.Status, device.Statuses[^1].What.Reason, device.Place));

        await Undo("Stored: away, laboratory.");
        _screen.WaitForAssertion(
            () => Assert.Equal((DeviceStatus.InService, null), (Live.Now.Device("A1")!.Status, Live.Now.Device("A1")!.Place)));
    }

    [Fact]
    public async Task An_inspection_is_entered_with_its_measure()
    {
        await Known("ground-plate");
        await Opened<WorkEntry>();
        await Input(1).ChangeAsync("0,15");
        await Yes();

        var seen = Assert.Single(Live.Now.Device("A1")!.Inspections);
        Assert.Equal((0.15, true, new DateOnly(2026, 8, 3)), (seen.What.FlushStepMm, seen.What.Passed, seen.Day));
    }

    [Fact]
    public async Task A_note_and_a_repair_are_entered_and_without_words_refused()
    {
        await Known("ground-plate");
        await Opened<WorkEntry>();
        await _screen.Find("select").ChangeAsync("note");
        await Yes();
        Assert.Empty(Live.Now.Device("A1")!.Notes);
        Assert.Contains("It is needed.", Dialog().TextContent, StringComparison.Ordinal);
        await Input(0).ChangeAsync("hums");
        await Yes();
        Assert.Equal("hums", Live.Now.Device("A1")!.Notes.Single().What.Text);

        await Opened<WorkEntry>();
        await _screen.Find("select").ChangeAsync("Repair");
        await Input(1).ChangeAsync("new rim");
        await Yes();
        var done = Assert.Single(Live.Now.Device("A1")!.Services).What;
        Assert.Equal((ServiceKind.Repair, "new rim", false), (done.What, done.Text, done.BeginsAnew));
    }

    [Fact]
    public async Task A_serial_number_is_corrected_and_an_empty_value_clears_nothing_by_accident()
    {
        await Known("ground-plate");
        await Opened<DetailEntry>();
        await _screen.Find("select").ChangeAsync("serial");
        Assert.Contains("Now: 1.", Dialog().TextContent, StringComparison.Ordinal);
        await Yes();
        Assert.Equal("1", Live.Now.Device("A1")!.Serial);
        Assert.Contains("It is needed.", Dialog().TextContent, StringComparison.Ordinal);

        await Input(0).InputAsync("107");
        await Yes();
        Assert.Equal("107", Live.Now.Device("A1")!.Serial);

        await Opened<DetailEntry>();
        await _screen.Find("select").ChangeAsync("serial");
        await _screen.FindAll(".mud-dialog-actions button").Single(b => b.TextContent.Contains("not known", StringComparison.Ordinal))
            .ClickAsync();
        Assert.Null(Live.Now.Device("A1")!.Serial);
    }

    [Fact]
    public async Task Two_entries_are_joined_once_the_other_is_chosen()
    {
        await Known("microphone");
        await Live.Submit([FactText.WriteDerived(
            FactStamp.Imported(Occurred.Unknown, 5), new DeviceRegistered("microphone", null, null, "1 b", []), ["device:A2"])], "test");
        var entry = await Opened<JoinEntry>();
        Assert.True(_screen.Find("[data-yes]").HasAttribute("disabled"));
        var finder = _screen.FindComponent<MicRegister.Server.Pages.Parts.DeviceFinder>();
        await _screen.InvokeAsync(() => finder.Instance.OnChosen.InvokeAsync("A2"));
        entry.Render();
        await Input(0).ChangeAsync("same engraving");
        await Yes();

        Assert.Equal("A1", Live.Now.Device("A2")!.Id);
    }

    [Fact]
    public async Task A_certificate_is_said_right_and_can_be_called_back()
    {
        await Steady();
        var newest = Live.Now.Device("A1")!.Certificates[^1];
        await Opened<CertificateCorrection>(p => p.Add(c => c.Certificate, newest));
        await Yes();
        Assert.Contains("Nothing was changed", Dialog().TextContent, StringComparison.Ordinal);

        await Input(1).InputAsync("12,6");
        await Yes();
        Assert.Equal([12.6], OfDay(newest.Day));

        await Undo("Stored: sensitivity certificate of 2025-03-01, corrected.");
        _screen.WaitForAssertion(() => Assert.Equal([12.5], OfDay(newest.Day)));
    }

    [Fact]
    public async Task A_certificate_is_judged_and_to_annul_it_wants_a_reason()
    {
        await Steady();
        var newest = Live.Now.Device("A1")!.Certificates[^1];
        await Opened<CertificateJudgement>(p => p.Add(c => c.Certificate, newest));
        Assert.True(_screen.Find("[data-yes]").HasAttribute("disabled"));
        Assert.DoesNotContain(_screen.FindAll("option"), o => o.TextContent.Contains("in force", StringComparison.Ordinal)); // no rival

        await _screen.Find("select").ChangeAsync("annul");
        await Yes();
        Assert.False(Live.Now.Device("A1")!.Certificates[^1].IsAnnulled);
        await Input(0).InputAsync("of another device");
        await Yes();
        Assert.True(Live.Now.Device("A1")!.Certificates[^1].IsAnnulled);

        var before = Live.Now.Device("A1")!.Certificates[^2];
        await Opened<CertificateJudgement>(p => p.Add(c => c.Certificate, before));
        await _screen.Find("select").ChangeAsync(nameof(AlarmDecision.NoChange));
        await Yes();
        Assert.Equal(AlarmDecision.NoChange, Live.Now.Device("A1")!.Reviews[before.Fact.ToString()].Decision);
    }

    [Fact]
    public async Task A_windscreen_is_found_intact_and_then_contaminated()
    {
        await Known("windscreen");
        var section = Render<ScreenInspection>(p => p.Add(s => s.Device, Live.Now.Device("A1")!));
        Assert.Contains("Nobody has stated that it is intact", section.Markup, StringComparison.Ordinal);
        await Opened<ScreenEntry>();
        await Input(1).ChangeAsync("data sheet, edition 3");
        await Yes();

        var seen = Assert.Single(Live.Now.Device("A1")!.Inspections);
        Assert.True(seen.What.IsIntactWithMakersData);
        Assert.Equal(new DateOnly(2026, 8, 3), seen.Day);
        section.Render(p => p.Add(s => s.Device, Live.Now.Device("A1")!));
        Assert.Contains("● intact", section.Markup, StringComparison.Ordinal);

        await Opened<ScreenEntry>();
        await _screen.FindAll("select")[1].ChangeAsync("no");
        await Yes();
        var last = Live.Now.Device("A1")!.Inspections[^1].What;
        Assert.Equal((false, "contaminated"), (last.Passed, last.Amiss));
        section.Render(p => p.Add(s => s.Device, Live.Now.Device("A1")!));
        Assert.Contains("■ contaminated", section.Markup, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_coupling_is_stated_with_its_source()
    {
        await Known("sound-calibrator");
        await Opened<CouplingEntry>();
        await Yes();
        Assert.Empty(Coupling());
        await Input(0).ChangeAsync("A-12P");
        await _screen.FindComponents<MicRegister.Server.Pages.Parts.NumberText>()[0].Find("input").ChangeAsync("0,02");
        await _screen.FindAll("input")[^1].ChangeAsync("its papers");
        await Yes();

        Assert.Equal(("A-12P", 0.02, "its papers"), Assert.Single(Coupling()));
    }

    private IEnumerable<double> OfDay(DateOnly day) =>
        Live.Now.Device("A1")!.Certificates.Where(c => !c.IsAnnulled && c.Day == day).Select(c => c.InForce!.Value);

    private IEnumerable<(string, double, string)> Coupling() => Register.Checks.Coupling.InForce(Live.Now.Device("A1")!)
        .Select(c => (c.What.MicrophoneModel, c.What.LoadVolumeDb, c.What.Source));

    private async Task<IRenderedComponent<T>> Opened<T>(Action<ComponentParameterCollectionBuilder<T>>? more = null)
        where T : DeviceAsking
    {
        _screen ??= Screen();
        _shut?.Invoke(); // as the page does that shows it
        var entry = Render<T>(p =>
        {
            p.Add(e => e.Open, true).Add(e => e.OpenChanged, _open.Add).Add(e => e.Device, Live.Now.Device("A1")!);
            more?.Invoke(p);
        });
        _shut = () => entry.Render(p => p.Add(e => e.Open, false));
        await _screen.WaitForElementAsync(".mud-dialog");
        return entry;
    }

    // The notice says what was stored, and its key takes it back.
    private async Task Undo(string words)
    {
        var notices = Render<MudSnackbarProvider>();
        var notice = notices.FindAll(".mud-snackbar").Single(n => n.TextContent.Contains(words, StringComparison.Ordinal));
        Assert.Contains(words, notice.TextContent, StringComparison.Ordinal);
        await notice.QuerySelectorAll("button").Single(b => b.TextContent.Trim() == "Undo").ClickAsync();
    }

    private IElement Dialog() => _screen.Find(".mud-dialog");

    // Fields that something is typed in.
    private IElement Input(int n) => _screen.FindAll(".mud-dialog input:not([type=file]):not([type=checkbox])")[n];

    private Task Yes() => _screen.Find("[data-yes]").ClickAsync();

    private async Task Known(string kind) => await Live.Submit(
        [FactText.WriteDerived(FactStamp.Imported(Occurred.Unknown, 0), new DeviceRegistered(kind, null, null, "1", []), ["device:A1"])],
        "test");

    // Eight results of one figure, a year apart.
    private async Task Steady()
    {
        var issued = new CertificateIssued(
            "sensitivity", null, null, null, null, null, null, 250,
            [new(AdjustmentState.AsFoundAndLeft, 12.5, "mV/Pa", 0.06, "dB", 2)], null, null, null, null, null, null, null);
        await Live.Submit(
            [
                Of(new DeviceRegistered("microphone", null, null, "1", []), "2020-01-01"),
                .. Enumerable.Range(2018, 8).Select(y => Of(issued, y + "-03-01")),
            ],
            "test");
    }

    private static Fact Of(FactBody body, string day, int counter = 0) => FactText.WriteDerived(
        FactStamp.Imported(Occurred.On(DateOnly.ParseExact(day, "yyyy-MM-dd")), counter), body, ["device:A1"]);
}
