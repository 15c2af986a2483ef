using System.Text;
using Bunit;
using MicRegister.Documents.Tests.DigitalCertificates;
using MicRegister.Register.Calibration;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Server.Pages.Bench;
using MicRegister.Server.Pages.Parts;
using Microsoft.AspNetCore.Components.Forms;

namespace MicRegister.Server.Tests.Pages;

/// <summary>Files that are dropped at the bench: each goes where it belongs without doubt, and all else is asked.</summary>
public sealed class BenchFilesTests : PageContext
{
    private const string Curve = "frequency [Hz];level [dB];U [dB]\n125;0.02;0.1\n250;0;0.1\n1000;-0.1;0.1\n";

    [Fact]
    public async Task Files_on_the_sheet_go_to_the_lines_that_they_name_and_are_stored_with_them()
    {
        var page = await Bench("1", "2");
        await Drop(page, Pdf("certificate-1.pdf"), ("2_curve.csv", Curve), Pdf("2.pdf"));

        Assert.Equal(("certificate-1.pdf", null), Names(page, 0));
        Assert.Equal(("2.pdf", "2_curve.csv"), Names(page, 1));
        Assert.Empty(page.Instance.Sheet.Waiting);
        page.Find("input[aria-label='Result, line 2']").Input("50");
        await page.FindAll("button.act")[^1].ClickAsync();

        var certificates = Live.Now.Device("D2")!.Certificates;
        Assert.Equal(["sensitivity", "response"], certificates.Select(c => c.Issued.Quantity).OrderDescending());
        var result = certificates.First(c => c.Issued.Quantity == "sensitivity").Issued;
        var curve = certificates.First(c => c.Issued.Quantity == "response").Issued;
        Assert.Equal("%PDF-1.7 2.pdf", Content(result.Attachment));
        Assert.Equal((Curve, 250.0), (Content(curve.Curve), curve.FrequencyHz));
        Assert.Contains("One result is stored, with its certificate and with its curve.", page.Markup, StringComparison.Ordinal);
        Assert.Equal(("certificate-1.pdf", null), Names(page, 0)); // the other one waits for its result
    }

    [Theory]
    [InlineData("nobody.pdf", "no serial number of a device in this register stands in its name")]
    [InlineData("1 and 2.pdf", "its name can speak of 1 and 2")]
    [InlineData("41OO3.pdf", "its name is like 41003, but not the same to the letter")]
    [InlineData("7.pdf", "2 devices have the serial number 7")]
    [InlineData("certificate 1.txt", "its ending is that of a table, its name speaks of a certificate")]
    [InlineData("1-curve.pdf", "its name speaks of a curve, but curves are read from text tables alone")]
    [InlineData("1.xml", "it is XML, but no digital calibration certificate")]
    [InlineData("1.log", "its ending is none of .csv, .txt, .dat, .tsv, .xml, .pdf")]
    public async Task What_is_not_clear_is_told_and_waits(string name, string why)
    {
        var page = await Bench("1", "2");
        await Drop(page, name.EndsWith(".pdf", StringComparison.Ordinal) ? Pdf(name) : (name, "<words/>"));

        Assert.Equal(why, Assert.Single(page.Instance.Sheet.Waiting).Why);
        Assert.Contains("▲ " + why, page.Find(".files-asked").TextContent, StringComparison.Ordinal);
        Assert.All(page.Instance.Sheet.Lines, l => Assert.Empty(l.Files));
    }

    [Fact]
    public async Task A_person_says_what_a_file_is_and_where_it_belongs()
    {
        var page = await Bench("1", "2");
        await Drop(page, ("certificate 1.txt", "typed by hand"));
        Assert.True(page.Find("select[aria-label='Line of certificate 1.txt']").HasAttribute("disabled"));

        page.Find("select[aria-label='What certificate 1.txt is']").Change("certificate");
        page.Find("select[aria-label='Line of certificate 1.txt']").Change("line:1");

        Assert.Empty(page.Instance.Sheet.Waiting);
        Assert.Equal(("certificate 1.txt", null), Names(page, 1));
    }

    [Fact]
    public async Task A_second_certificate_of_a_line_takes_the_place_of_the_first_only_where_a_person_says_so()
    {
        var page = await Bench("1");
        await Drop(page, Pdf("1.pdf"), Pdf("1 second.pdf"));
        await Drop(page, Pdf("1.pdf")); // the same once more is nothing new
        Assert.Equal("line 1 holds 1 second.pdf in its place", Assert.Single(page.Instance.Sheet.Waiting).Why);
        Assert.Contains("line 1, 1, in place of 1 second.pdf", page.Markup, StringComparison.Ordinal);

        page.Find("select[aria-label='Line of 1.pdf']").Change("line:0");

        Assert.Equal(("1.pdf", null), Names(page, 0));
    }

    [Fact]
    public async Task Files_of_devices_without_a_line_wait_for_one_that_is_opened_or_typed()
    {
        var page = await Bench();
        await Drop(page, Pdf("41003.pdf"), Pdf("2.pdf"), ("2.csv", Curve));
        Assert.Contains("3 files are of 2 devices without a line.", page.Find(".bench-offer").TextContent, StringComparison.Ordinal);

        page.FindAll("input[aria-label^='Serial number']")[0].Input("2");
        Assert.Equal(("2.pdf", "2.csv"), Names(page, 0));
        Assert.Contains("One file is of one device without a line.", page.Find(".bench-offer").TextContent, StringComparison.Ordinal);
        await page.Find(".bench-offer button.act").ClickAsync();

        Assert.Empty(page.FindAll(".bench-offer"));
        Assert.Equal(("41003", "41003.pdf"), (page.Instance.Sheet.Lines[1].Serial, Names(page, 1).Certificate));
        Assert.True(page.Instance.Sheet.Lines[^1].IsEmpty);
    }

    [Fact]
    public async Task A_file_on_a_line_is_its_unless_it_names_another_device()
    {
        var page = await Bench("1", "2");
        await DropOn(page, 0, Pdf("scan.pdf"));
        await DropOn(page, 1, Pdf("1.pdf"));

        Assert.Equal(("scan.pdf", null), Names(page, 0));
        Assert.Equal((null, null), Names(page, 1));
        Assert.Equal("it was dropped on the line of Microphone 2 and names Microphone 1", Assert.Single(page.Instance.Sheet.Waiting).Why);
        await DropOn(page, 2, Pdf("41003.pdf")); // an empty line takes the serial number as well
        Assert.Equal(("41003", "41003.pdf"), (page.Instance.Sheet.Lines[2].Serial, Names(page, 2).Certificate));
    }

    [Fact]
    public async Task A_digital_certificate_says_itself_whose_it_is_and_fills_what_is_empty()
    {
        await Hold(Microphone("D9", "41001"));
        var page = await Bench("1");
        var text = InventedCertificate.Text("3.3.0", """
            <si:real><si:value>0.0126</si:value><si:unit>\volt\pascal\tothe{-1}</si:unit>
            <si:measurementUncertaintyUnivariate><si:expandedMU><si:valueExpandedMU>0.0001</si:valueExpandedMU>
            <si:coverageFactor>2</si:coverageFactor><si:coverageProbability>0.95</si:coverageProbability></si:expandedMU>
            </si:measurementUncertaintyUnivariate></si:real>
            """);
        await Drop(page, ("scan.xml", text), ("1.xml", text));
        Assert.Equal("its name speaks of Microphone 1, it itself of Microphone 41001", Assert.Single(page.Instance.Sheet.Waiting).Why);
        await page.Find(".bench-offer button.act").ClickAsync();

        await page.FindAll("button").First(b => b.TextContent.Contains("Fill what is empty", StringComparison.Ordinal)).ClickAsync();

        var line = page.Instance.Sheet.Lines.First(l => l.Serial == "41001");
        Assert.Equal(("0.0126", "V/Pa", "0.0001 V/Pa"), (line.Value, line.Unit, line.Expanded));
        Assert.Equal(("DCC-26-1", new DateOnly(2026, 5, 5)), (line.Number, line.Day));
        Assert.Equal(0.0001, line.Issued!.Results[0].ExpandedUncertainty);
        Assert.Empty(line.Notes);
        // 20 lg (0.0127 / 0.0126) = 0.0687: a slip of the pen is told.
        page.FindAll("input[aria-label^='Result']")[page.Instance.Sheet.Lines.IndexOf(line)].Input("0.0127");
        Assert.Equal("Its digital certificate states 0.0126 V/Pa: the result lies +0.069 dB from that.", Assert.Single(line.Notes));
    }

    [Fact]
    public async Task A_curve_that_leaves_something_open_is_asked_at_its_line_and_not_stored_before()
    {
        var page = await Bench("1");
        page.Find("input[aria-label='Result, line 1']").Input("50");
        await DropOn(page, 0, ("c.csv", "Hz;Correction to be added\n100;0.1\n250;0\n1000;-0.2\n"));
        Assert.NotNull(page.Instance.Sheet.Lines[0].Asking);
        Assert.True(page.FindAll("button.act")[^1].HasAttribute("disabled"));

        await page.Find("button[aria-label='Take out c.csv, line 1']").ClickAsync();
        Assert.False(page.FindAll("button.act")[^1].HasAttribute("disabled"));
    }

    [Fact]
    public async Task A_file_that_cannot_be_read_as_a_curve_is_told_at_its_line()
    {
        var page = await Bench("1");
        page.Find("input[aria-label='Result, line 1']").Input("50");
        await DropOn(page, 0, ("1.csv", "words only"));
        Assert.NotNull(page.Instance.Sheet.Lines[0].ProblemOf(BenchField.Curve));
        Assert.True(page.FindAll("button.act")[^1].HasAttribute("disabled"));
    }

    [Fact]
    public async Task What_is_no_such_file_is_refused_and_takes_none_of_the_others_with_it()
    {
        Render<MudBlazor.MudSnackbarProvider>();
        var page = await Bench("1");
        await Drop(page, ("1.exe", "MZ\0\0"), Pdf("1.pdf"));
        Assert.Equal(("1.pdf", null), Names(page, 0));
        Assert.Empty(page.Instance.Sheet.Waiting);
    }

    [Fact]
    public async Task A_sheet_is_what_it_was_after_the_tab_kept_it()
    {
        var page = await Bench("1", "2");
        page.Find("input[aria-label='Result, line 1']").Input("13.9");
        page.Find("tbody.bench-line input[type=checkbox]").Change(true);
        page.Find("input[aria-label='Temperature, °C, line 2']").Input("25");
        page.Find("input[aria-label='Humidity, %, line 2']").Input("");
        await Drop(page, Pdf("1.pdf"), ("2.csv", Curve), Pdf("nobody.pdf"), Pdf("41003.pdf"));
        var text = BenchDraft.Of(page.Instance.Sheet);

        JSInterop.Setup<string?>("desk.kept", _ => true).SetResult(text);
        var again = Render<BenchPage>();
        again.WaitForAssertion(() => Assert.Contains("here again that this tab kept", again.Markup, StringComparison.Ordinal));

        Assert.Equal(text, BenchDraft.Of(again.Instance.Sheet));
        Assert.True(again.Instance.Sheet.Lines[0].IsInsisted && again.Instance.Sheet.Lines[0].IsGood);
        Assert.Equal(("1.pdf", null), Names(again, 0));
        Assert.NotNull(again.Instance.Sheet.Lines[1].ReadCurve);
        Assert.Null(BenchDraft.Of(new BenchSheet()));
    }

    [Theory]
    [InlineData("")]
    [InlineData("null")]
    [InlineData("{")]
    [InlineData("{\"day\":\"2026-08-03\"}")]
    public void What_is_no_sheet_is_none(string text) => Assert.Null(BenchDraft.Read(text));

    [Fact]
    public async Task A_kept_sheet_names_no_file_but_by_its_digest()
    {
        var page = await Bench("1");
        await Drop(page, Pdf("1.pdf"));
        var text = BenchDraft.Of(page.Instance.Sheet)!;
        var sha = page.Instance.Sheet.Lines[0].Certificate!.Sha;
        Assert.NotNull(BenchDraft.Read(text));
        Assert.Null(BenchDraft.Read(text.Replace(sha, "../../accounts", StringComparison.Ordinal)));
        // One that is not here any more is told, and its line waits.
        var gone = BenchDraft.Read(text.Replace(sha, new string('a', 64), StringComparison.Ordinal))!;
        var sheet = new BenchSheet { Day = Desk.Today };
        gone.PutInto(sheet);
        sheet.Work(Desk, Desk.Now);
        Assert.Equal("1.pdf is not here any more: take it out and drop it again.", sheet.Lines[0].ProblemOf(BenchField.Certificate));
    }

    private async Task<IRenderedComponent<BenchPage>> Bench(params string[] serials)
    {
        await Hold(Microphone("D1", "1"), Microphone("D2", "2"), Microphone("D3", "41003"), Microphone("D7", "7"), Microphone("D8", "7"));
        var page = Render<BenchPage>();
        for (var i = 0; i < serials.Length; i++) page.FindAll("input[aria-label^='Serial number']")[i].Input(serials[i]);
        return page;
    }

    private static Task Drop(IRenderedComponent<BenchPage> page, params (string Name, string Text)[] files) =>
        Give(page, page.FindComponent<Drop>().FindComponent<InputFile>(), files);

    private static Task DropOn(IRenderedComponent<BenchPage> page, int line, params (string Name, string Text)[] files) =>
        Give(page, page.FindComponents<DropCell>()[line].FindComponent<InputFile>(), files);

    private static Task Give(IRenderedComponent<BenchPage> page, IRenderedComponent<InputFile> field, (string Name, string Text)[] files)
    {
        field.UploadFiles([.. files.Select(f => InputFileContent.CreateFromText(f.Text, f.Name))]);
        page.WaitForState(() => !page.Markup.Contains("Reading file", StringComparison.Ordinal));
        return Task.CompletedTask;
    }

    private static (string? Certificate, string? Curve) Names(IRenderedComponent<BenchPage> page, int line) =>
        (page.Instance.Sheet.Lines[line].Certificate?.Name, page.Instance.Sheet.Lines[line].Curve?.Name);

    private static (string, string) Pdf(string name) => (name, "%PDF-1.7 " + name);

    private string Content(string? sha)
    {
        using var content = new StreamReader(Live.Log.OpenAttachment(sha!)!, Encoding.UTF8);
        return content.ReadToEnd();
    }

    private async Task Hold(params IReadOnlyList<Fact> facts) => await Live.Submit(facts, "test");

    private static Fact Microphone(string id, string serial) => FactText.WriteDerived(
        FactStamp.Imported(Occurred.Unknown, 0),
        new DeviceRegistered("microphone", null, null, serial, new(StringComparer.Ordinal) { ["nominal-mv-per-pa"] = FieldValue.Of(50) }),
        [Subject.Device(id)]);
}
