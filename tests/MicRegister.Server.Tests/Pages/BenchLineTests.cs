using AngleSharp.Dom;
using Bunit;
using MicRegister.Register.Calibration;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Server.Pages.Bench;
using MudBlazor;

namespace MicRegister.Server.Tests.Pages;

/// <summary>A line of the bench: what is typed in it, what is carried to it, and what is asked before it is stored.</summary>
public sealed class BenchLineTests : PageContext
{
    private const string Celsius = "Temperature, °C";

    // 20 lg (13.9 / 50) = -11.119; 20 lg 0.0139 = -37.140; 20 lg 0.05 = -26.021.
    [Fact]
    public async Task A_result_far_from_what_is_expected_is_asked_about_without_U_and_stored_after_a_yes()
    {
        await Hold(Microphone("D1", "1"));
        var page = Render<BenchPage>();
        Cell(page, "Serial number", 1).Input("1");
        Cell(page, "Result", 1).Input("13.9 mV/Pa");

        var row = Line(page, 1).TextContent;
        Assert.Contains("−37.140 dB", row, StringComparison.Ordinal);
        Assert.Contains("expected −26.021 dB, deviation −11.119 dB", row, StringComparison.Ordinal);
        Assert.Contains("▲ −11.119 dB from the nominal value, where 3 dB is asked about", row, StringComparison.Ordinal);
        Assert.Contains("U is not known", row, StringComparison.Ordinal);
        Assert.True(Store(page).HasAttribute("disabled"));

        Tick(page).Change(true);
        Assert.False(Store(page).HasAttribute("disabled"));
        // It was said of that figure, not of this one.
        Cell(page, "Result", 1).Input("13.8 mV/Pa");
        Assert.True(Store(page).HasAttribute("disabled"));
        Cell(page, "Result", 1).Input("13.9 mV/Pa");
        Tick(page).Change(true);
        await Store(page).ClickAsync();

        Assert.Equal((13.9, "mV/Pa", null), Stated(Assert.Single(Live.Now.Device("D1")!.Certificates)));
        Assert.Contains("One result is stored.", page.Markup, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Air_and_U_of_the_day_stand_in_each_line_and_can_be_said_otherwise_there()
    {
        await Hold(Microphone("D1", "1"), Microphone("D2", "2"), Microphone("D3", "3"));
        var page = Render<BenchPage>();
        Field(page, Celsius).Change("23");
        Field(page, "Humidity, %").Change("45");
        Field(page, "Static pressure, kPa").Change("1008 hPa");
        Field(page, "U of all lines").Change("0,1");
        for (var n = 1; n <= 3; n++)
        {
            Cell(page, "Serial number", n).Input($"{n}");
            Cell(page, "Result", n).Input("50");
        }
        Assert.Equal(("23", "45"), (Shown(page, Celsius, 3), Shown(page, "Humidity, %", 3)));
        Assert.Equal(("1008 hPa", "0,1"), (Shown(page, "Static pressure, kPa", 3), Shown(page, "Uncertainty", 3)));
        Assert.Contains("carried", Cell(page, Celsius, 2).ClassName, StringComparison.Ordinal);

        Cell(page, Celsius, 2).Input("25.5");
        Cell(page, "Humidity, %", 2).Input("");
        Cell(page, "Uncertainty", 2).Input("");
        Assert.DoesNotContain("carried", Cell(page, Celsius, 2).ClassName, StringComparison.Ordinal);
        Cell(page, Celsius, 3).Input("24");
        Cell(page, Celsius, 3).Input("23"); // as all again: it follows the day again
        Field(page, Celsius).Change("22");
        Assert.Equal(("22", "25.5", "22"), (Shown(page, Celsius, 1), Shown(page, Celsius, 2), Shown(page, Celsius, 3)));
        await Store(page).ClickAsync();

        Assert.Equal(
            [(new StatedAir(100.8, 22, 45), 0.1), (new StatedAir(100.8, 25.5, null), null), (new StatedAir(100.8, 22, 45), 0.1)],
            new[] { "D1", "D2", "D3" }.Select(d => Live.Now.Device(d)!.Certificates[0].Issued)
                .Select(i => (i.Air!, i.Results[0].ExpandedUncertainty)));
    }

    [Theory]
    [InlineData("Serial number", "77", "No device has the serial number '77'.")]
    [InlineData("Result", "twelve", "Result 'twelve': it is no number.")]
    [InlineData("Result", "50 kg", "Result '50 kg': it is no number.")]
    [InlineData("Result", "12 Hz", "Result '12 Hz': allowed units are mV/Pa, V/Pa, dB re 1 V/Pa, dB, kPa.")]
    [InlineData("Result", "0", "Result '0 mV/Pa': a sensitivity is above 0.")]
    [InlineData("Uncertainty", "little", "U 'little': it is no number.")]
    [InlineData("Uncertainty", "-0.1", "Uncertainty '-0.1': it is above 0; leave it out where none was stated.")]
    [InlineData("Temperature, °C", "230", "Temperature '230': allowed is a number from -30 to 60 °C.")]
    [InlineData("Humidity, %", "101", "Humidity '101': allowed is a number from 0 to 100 %.")]
    [InlineData("Static pressure, kPa", "1013", "Static pressure '1013': allowed is a number from 30 to 120 kPa.")]
    [InlineData("Static pressure, kPa", "101 mm", "Static pressure '101 mm': allowed is a number from 30 to 120 kPa.")]
    public async Task What_is_wrong_is_told_at_its_field_of_its_line_and_keeps_only_that_line(string field, string text, string says)
    {
        await Hold(Microphone("D1", "1"), Microphone("D2", "2"));
        var page = Render<BenchPage>();
        for (var n = 1; n <= 2; n++)
        {
            Cell(page, "Serial number", n).Input($"{n}");
            Cell(page, "Result", n).Input("50");
        }
        Assert.Equal("Store 2 results", Store(page).TextContent.Trim());

        Cell(page, field, 2).Input(text);

        var cell = Cell(page, field, 2);
        Assert.Equal((text, "true"), (cell.GetAttribute("value"), cell.GetAttribute("aria-invalid")));
        Assert.Equal("■ " + says, page.Find("#" + cell.GetAttribute("aria-describedby")).TextContent);
        Assert.Equal("Store this result", Store(page).TextContent.Trim());
        await Store(page).ClickAsync();
        Assert.Equal((1, 0), (Live.Now.Device("D1")!.Certificates.Length, Live.Now.Device("D2")!.Certificates.Length));
        Assert.Equal(text, Cell(page, field, 1).GetAttribute("value")); // what was not stored stays, line 1 by now
    }

    [Fact]
    public async Task Of_two_devices_with_one_serial_number_a_person_chooses()
    {
        await Hold(Microphone("D1", "1"), Microphone("D2", "1"));
        var page = Render<BenchPage>();
        Cell(page, "Serial number", 1).Input("1");
        Cell(page, "Result", 1).Input("50");
        Assert.Contains("2 devices have the serial number '1'", Line(page, 1).TextContent, StringComparison.Ordinal);
        Assert.True(Store(page).HasAttribute("disabled"));

        page.Find("select[aria-label='Device, line 1']").Change("D2");
        await Store(page).ClickAsync();

        Assert.Equal((0, 1), (Live.Now.Device("D1")!.Certificates.Length, Live.Now.Device("D2")!.Certificates.Length));
    }

    [Fact]
    public async Task Two_lines_of_one_device_and_day_are_not_both_stored()
    {
        await Hold(Microphone("D1", "1"));
        var page = Render<BenchPage>();
        for (var n = 1; n <= 2; n++)
        {
            Cell(page, "Serial number", n).Input("1");
            Cell(page, "Result", n).Input("50");
        }
        Assert.Contains("Line 1 is of the same device and day.", Line(page, 2).TextContent, StringComparison.Ordinal);
        await Store(page).ClickAsync();

        Assert.Single(Live.Now.Device("D1")!.Certificates);
        // Stored once, it is told that the next one will stand beside it.
        Assert.Contains("A certificate of 2026-08-03 stands in the register already", page.Markup, StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_was_stored_is_told_and_taken_back_as_one_act_with_its_lines()
    {
        await Hold(Microphone("D1", "1"), Microphone("D2", "2"));
        var page = Render<BenchPage>();
        for (var n = 1; n <= 2; n++)
        {
            Cell(page, "Serial number", n).Input($"{n}");
            Cell(page, "Result", n).Input("50");
        }
        await Store(page).ClickAsync();
        Assert.Contains("2 results are stored.", page.Markup, StringComparison.Ordinal);
        var before = Live.Now.Count;

        await Undo(page).ClickAsync();

        Assert.Equal(before + 2, Live.Now.Count);
        Assert.All(new[] { "D1", "D2" }, d => Assert.True(Assert.Single(Live.Now.Device(d)!.Certificates).IsAnnulled));
        Assert.Equal(("1", "50", "2"), (Shown(page, "Serial number", 1), Shown(page, "Result", 1), Shown(page, "Serial number", 2)));
        Assert.Equal("Store 2 results", Store(page).TextContent.Trim());
        await Store(page).ClickAsync();
        Assert.Equal(2, Live.Now.Device("D1")!.Certificates.Length);
    }

    [Fact]
    public async Task Where_somebody_spoke_of_a_part_meanwhile_nothing_is_taken_back()
    {
        Render<MudSnackbarProvider>();
        await Hold(Microphone("D1", "1"), Microphone("D2", "2"));
        var page = Render<BenchPage>();
        for (var n = 1; n <= 2; n++)
        {
            Cell(page, "Serial number", n).Input($"{n}");
            Cell(page, "Result", n).Input("50");
        }
        await Store(page).ClickAsync();
        var second = Live.Now.Device("D2")!.Certificates[0].Fact;
        var stamp = new FactStamp(Occurred.On(new(2026, 8, 3)), "P2", "desk", 9);
        await Hold(FactText.WriteDerived(stamp, new FactAnnulled(second.ToString(), "wrong"), ["device:D2"]));

        await Undo(page).ClickAsync();

        Assert.False(Live.Now.Device("D1")!.Certificates[0].IsAnnulled);
        Assert.NotNull(Undo(page));
    }

    [Fact]
    public async Task Without_anything_on_file_nothing_is_expected_and_that_is_told()
    {
        await Hold(Of(new DeviceRegistered("microphone", null, null, "1", []), "D1"));
        var page = Render<BenchPage>();
        Cell(page, "Serial number", 1).Input("1");
        Cell(page, "Result", 1).Input("13.9");
        Cell(page, "Uncertainty", 1).Input("0.1");

        Assert.Contains("nothing to be expected yet", Line(page, 1).TextContent, StringComparison.Ordinal);
        Assert.DoesNotContain("U is not known", Line(page, 1).TextContent, StringComparison.Ordinal);
        Assert.False(Store(page).HasAttribute("disabled"));
    }

    [Fact]
    public async Task A_unit_typed_with_the_result_counts_and_another_one_beside_it_is_told()
    {
        await Hold(Microphone("D1", "1"));
        var page = Render<BenchPage>();
        Cell(page, "Serial number", 1).Input("1");
        Cell(page, "Result", 1).Input("0,05 V/Pa");
        Cell(page, "Uncertainty", 1).Input("0.5 %");
        Assert.Contains("−26.021 dB", Line(page, 1).TextContent, StringComparison.Ordinal);

        page.Find("select[aria-label='Unit, line 1']").Change("mV/Pa");
        Assert.Contains("Result '0,05 V/Pa': the unit beside it is mV/Pa.", Line(page, 1).TextContent, StringComparison.Ordinal);
        page.Find("select[aria-label='Unit, line 1']").Change("");
        await Store(page).ClickAsync();

        var result = Live.Now.Device("D1")!.Certificates[0].Issued.Results[0];
        Assert.Equal((0.05, "V/Pa", 0.5, "%"), (result.Value, result.Unit, result.ExpandedUncertainty, result.UncertaintyUnit));
    }

    private async Task Hold(params IReadOnlyList<Fact> facts) => await Live.Submit(facts, "test");

    private static Fact Microphone(string id, string serial) => Of(new DeviceRegistered(
        "microphone", null, null, serial, new(StringComparer.Ordinal) { ["nominal-mv-per-pa"] = FieldValue.Of(50) }), id);

    private static Fact Of(FactBody body, string device) =>
        FactText.WriteDerived(FactStamp.Imported(Occurred.Unknown, 0), body, [Subject.Device(device)]);

    private static (double, string, double?) Stated(DeviceCertificate c) =>
        (c.Issued.Results[0].Value, c.Issued.Results[0].Unit, c.Issued.Results[0].ExpandedUncertainty);

    private static IElement Line(IRenderedComponent<BenchPage> page, int number) => page.FindAll("tbody.bench-line")[number - 1];

    private static IElement Cell(IRenderedComponent<BenchPage> page, string what, int line) =>
        page.Find($"input[aria-label='{what}, line {line}']");

    private static string? Shown(IRenderedComponent<BenchPage> page, string what, int line) => Cell(page, what, line).GetAttribute("value");

    private static IElement Field(IRenderedComponent<BenchPage> page, string label) =>
        page.Find("#" + page.FindAll("label").First(l => l.TextContent.Trim() == label).GetAttribute("for"));

    private static IElement Store(IRenderedComponent<BenchPage> page) =>
        page.FindAll("button.act").Last(b => b.TextContent.Contains("Store", StringComparison.Ordinal));

    private static IElement Undo(IRenderedComponent<BenchPage> page) =>
        page.FindAll("button.plain").First(b => b.TextContent.Contains("Undo", StringComparison.Ordinal));

    private static IElement Tick(IRenderedComponent<BenchPage> page) => page.Find("tbody.bench-line input[type=checkbox]");
}
