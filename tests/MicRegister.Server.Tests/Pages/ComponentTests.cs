using AngleSharp.Dom;
using Bunit;
using MicRegister.Documents.Drawings;
using MicRegister.Register.Calibration;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Register.Readiness;
using MicRegister.Server.Pages.Devices;
using MicRegister.Server.Pages.Inspections;
using MicRegister.Server.Pages.Parts;
using MicRegister.Server.Work;
using Microsoft.Extensions.DependencyInjection;
using MudBlazor;

namespace MicRegister.Server.Tests.Pages;

public sealed class ComponentTests : PageContext
{
    [Theory]
    [InlineData(ReadinessVerdict.Ready, "● ready")]
    [InlineData(ReadinessVerdict.AtRisk, "▲ at risk")]
    [InlineData(ReadinessVerdict.NotReady, "■ not ready")]
    [InlineData(ReadinessVerdict.Undecided, "◇ undecided")]
    [InlineData(ReadinessVerdict.Over, "□ over")]
    public void A_verdict_is_a_shape_and_a_word(ReadinessVerdict verdict, string text) =>
        Assert.Equal(text, Render<VerdictWord>(p => p.Add(v => v.Verdict, verdict)).Find("span").TextContent);

    [Fact]
    public void Marks_of_a_drawing_are_chosen_by_mouse_and_keyboard_and_say_what_they_are()
    {
        var chosen = new List<string>();
        var drawing = new Drawing(100, 50, "Two stations", [new Mark(Role.Ready, 10, 10, 4, MarkForm.Disc, "A", "Station A: ready"), new Mark(Role.Stop, 20, 10, 4, MarkForm.Square, "B", "Station B: not ready")]);

        var view = Render<DrawingView>(p => p.Add(v => v.Drawing, drawing).Add(v => v.OnMark, key => chosen.Add(key)).Add(v => v.Chosen, "B"));
        view.FindAll("g.mark")[0].Click();
        view.FindAll("g.mark")[1].KeyDown("Enter");
        view.FindAll("g.mark")[0].KeyDown("x");

        Assert.Equal(["A", "B"], chosen);
        Assert.Equal(["Station A: ready", "Station B: not ready"], view.FindAll("g.mark").Select(m => m.GetAttribute("aria-label")));
        Assert.All(view.FindAll("g.mark"), m => Assert.Equal(("button", "0"), (m.GetAttribute("role"), m.GetAttribute("tabindex"))));
        Assert.Contains("chosen", view.FindAll("g.mark")[1].ClassList);
        Assert.Equal("img", Render<DrawingView>(p => p.Add(v => v.Drawing, drawing)).Find("g.mark").GetAttribute("role"));
    }

    [Fact]
    public async Task A_certificate_is_entered_and_a_wrong_number_is_named_and_stores_nothing()
    {
        var entered = new DeviceRegistered("microphone", null, null, "1", []);
        await Live.Submit([FactText.WriteDerived(FactStamp.Imported(Occurred.Unknown, 0), entered, ["device:A1"])], "test");
        var list = Render<CertificateList>(p => p.Add(l => l.Device, Live.Now.Device("A1")!));
        var form = list.Find("form[aria-label='Enter a certificate']");

        form.QuerySelectorAll("input")[1].Change("twelve");
        await form.SubmitAsync();
        Assert.Equal(1, Live.Now.Count);
        Assert.Contains(Services.GetRequiredService<ISnackbar>().ShownSnackbars, s => s.Message?.Contains("Result 'twelve': it is no number", StringComparison.Ordinal) == true);

        list.Find("form[aria-label='Enter a certificate']").QuerySelectorAll("input")[1].Change("12,5");
        await list.Find("form[aria-label='Enter a certificate']").SubmitAsync();
        Assert.Equal(12.5, Live.Now.Device("A1")!.Certificates.Single().InForce!.Value);
    }

    [Fact]
    public async Task A_result_that_does_not_fit_is_asked_about_once_before_it_is_stored()
    {
        Fact Of(FactBody body, string day) => FactText.WriteDerived(
            FactStamp.Imported(Occurred.On(DateOnly.ParseExact(day, "yyyy-MM-dd")), 0), body, ["device:A1"]);
        var issued = new CertificateIssued(
            "sensitivity", null, null, null, null, null, null, 250,
            [new(AdjustmentState.AsFoundAndLeft, 12.5, "mV/Pa", 0.06, "dB", 2)], null, null, null, null, null, null, null);
        await Live.Submit(
            [
                Of(new DeviceRegistered("microphone", null, null, "1", []), "2020-01-01"),
                .. Enumerable.Range(2018, 8).Select(y => Of(issued, y + "-03-01")),
            ],
            "test");
        var list = Render<CertificateList>(p => p.Add(l => l.Device, Live.Now.Device("A1")!));
        IElement Form() => list.Find("form[aria-label='Enter a certificate']");
        async Task Enter(string value)
        {
            Form().QuerySelectorAll("input")[1].Change(value);
            Form().QuerySelectorAll("input")[2].Change("0,06");
            await Form().SubmitAsync();
        }

        await Enter("13,5");
        Assert.Contains("does not fit", Form().TextContent, StringComparison.Ordinal);
        Assert.Equal(8, Live.Now.Device("A1")!.Certificates.Length);
        await Enter("13,6"); // something else that does not fit: asked again
        Assert.Equal(8, Live.Now.Device("A1")!.Certificates.Length);
        await Enter("13,6");
        Assert.Equal(13.6, Live.Now.Device("A1")!.Certificates[^1].InForce!.Value);
    }

    [Fact]
    public async Task Saying_one_thing_takes_nothing_back_that_another_said_meanwhile()
    {
        Fact Of(FactBody body, int counter) => FactText.WriteDerived(FactStamp.Imported(Occurred.On(new(2026, 8, 1)), counter), body, ["device:A1"]);
        await Live.Submit([Of(new DeviceRegistered("microphone", null, null, "1", []), 0)], "test");
        var entry = Render<StateEntry>(p => p.Add(s => s.Device, Live.Now.Device("A1")!));
        await Meanwhile(Of(new DeviceStatusChanged(DeviceStatus.OutOfService, "dropped"), 1));
        entry.Render(p => p.Add(s => s.Device, Live.Now.Device("A1")!));
        entry.WaitForAssertion(() => Assert.Equal("OutOfService", entry.Find("select").GetAttribute("value")));

        // What follows may still be drawing: an element is found and acted on in its turn, or it may be gone in between.
        await entry.InvokeAsync(() => entry.FindAll("input")[1].InputAsync("bench 2"));
        await entry.InvokeAsync(() => entry.Find("form").SubmitAsync());
        // What was said meanwhile was shown first.
        if (Live.Now.Device("A1")!.Place is null) await entry.InvokeAsync(() => entry.Find("form").SubmitAsync());

        Assert.Equal((DeviceStatus.OutOfService, "bench 2"), (Live.Now.Device("A1")!.Status, Live.Now.Device("A1")!.Place));
    }

    [Fact]
    public async Task An_inspection_is_entered_and_a_serial_corrected()
    {
        var entered = new DeviceRegistered("ground-plate", null, null, "1", []);
        await Live.Submit([FactText.WriteDerived(FactStamp.Imported(Occurred.Unknown, 0), entered, ["device:A1"])], "test");
        var work = Render<WorkEntry>(p => p.Add(w => w.Device, Live.Now.Device("A1")!));
        work.FindAll("input")[1].Change("0,15");
        await work.Find("form").SubmitAsync();
        var seen = Assert.Single(Live.Now.Device("A1")!.Inspections);
        Assert.Equal((0.15, true, new DateOnly(2026, 8, 3)), (seen.What.FlushStepMm, seen.What.Passed, seen.Day));

        var detail = Render<DetailEntry>(p => p.Add(d => d.Device, Live.Now.Device("A1")!));
        detail.Find("select").Change("serial");
        await detail.Find("form").SubmitAsync();
        Assert.Equal("1", Live.Now.Device("A1")!.Serial); // an empty value clears nothing by accident
        detail.Find("input").Change("107");
        await detail.Find("form").SubmitAsync();
        Assert.Equal("107", Live.Now.Device("A1")!.Serial);
    }

    [Fact]
    public async Task A_windscreen_is_found_intact_and_then_contaminated()
    {
        var entered = new DeviceRegistered("windscreen", null, null, "1", []);
        await Live.Submit([FactText.WriteDerived(FactStamp.Imported(Occurred.Unknown, 0), entered, ["device:A1"])], "test");
        Render<MudPopoverProvider>();
        var page = Render<ScreenInspection>(p => p.Add(s => s.Device, Live.Now.Device("A1")!));
        Assert.Contains("Nobody has stated that it is intact", page.Markup, StringComparison.Ordinal);
        var data = page.FindComponents<MudTextField<string>>().Single(f => f.Instance.Label!.StartsWith("Maker's data", StringComparison.Ordinal));
        await page.InvokeAsync(() => data.Instance.ValueChanged.InvokeAsync("data sheet, edition 3"));
        await page.InvokeAsync(() => page.Find("form").SubmitAsync());

        var seen = Assert.Single(Live.Now.Device("A1")!.Inspections);
        Assert.True(seen.What.IsIntactWithMakersData);
        Assert.Equal(new DateOnly(2026, 8, 3), seen.Day);
        page.Render(p => p.Add(s => s.Device, Live.Now.Device("A1")!));
        Assert.Contains("● intact", page.Markup, StringComparison.Ordinal);

        var clean = page.FindComponents<MudSelect<string>>().Single(f => f.Instance.Label == "Contamination");
        await page.InvokeAsync(() => clean.Instance.ValueChanged.InvokeAsync("no"));
        await page.InvokeAsync(() => page.Find("form").SubmitAsync());
        Assert.Equal((false, "contaminated"), (Live.Now.Device("A1")!.Inspections[^1].What.Passed, Live.Now.Device("A1")!.Inspections[^1].What.Amiss));
        page.Render(p => p.Add(s => s.Device, Live.Now.Device("A1")!));
        Assert.Contains("■ contaminated", page.Markup, StringComparison.Ordinal);
    }

    [Fact]
    public void Findings_of_a_campaign_become_verdicts_of_its_devices()
    {
        Finding Of(string device, Gravity gravity, string rule = "due") => new(rule, gravity, device, device, null, default, "", [], Clearing.Swap, default, false);
        var report = new ReadinessReport("C", "C", default, default, default, "", ReadinessVerdict.NotReady, [], [Of("A", Gravity.Risks), Of("A", Gravity.Stops), Of("B", Gravity.Note), Of("N", Gravity.Risks, "newer-facts")], 0, 0, 0, 0, new(0, 0, 0, 0, 0, 0));

        var verdicts = DeviceVerdicts.Of(Live.Now, report);

        Assert.Equal((ReadinessVerdict.NotReady, ReadinessVerdict.Undecided), (verdicts["A"].Verdict, verdicts["N"].Verdict));
        Assert.False(verdicts.ContainsKey("B"));
    }
}
