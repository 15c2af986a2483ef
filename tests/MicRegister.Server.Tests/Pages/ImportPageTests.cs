using System.Text;
using System.Text.RegularExpressions;
using AngleSharp.Dom;
using Bunit;
using MicRegister.Documents.Import;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Register.Intake;
using MicRegister.Server.Imports;
using MicRegister.Server.Pages.Imports;
using Microsoft.AspNetCore.Components.Forms;
using MudBlazor;

namespace MicRegister.Server.Tests.Pages;

/// <summary>
/// Taking lists over on the page: what was understood, every change before it is stored, and what was shown is what is stored.
/// </summary>
public sealed partial class ImportPageTests : PageContext
{
    private const string Fleet = "Kind,Model,Serial,Location,Date,Sensitivity [mV/Pa]\n"
        + "mic,A,1,Hall 1,2025-01-01,12.5\nmic,A,2,Hall 1,2025-03-01,12.5\nplate,P,3,Hall 1,,\n";

    private const string Moved = "Kind,Serial,Location\nmic,1,Van\nmic,2,Hall 1\nplate,4,Hall 2\nteapot,5,Hall 2\n";

    private static string Id(string kind, string model, string serial) => DeviceIdentity.IdOf(kind, null, model, serial);

    [Fact]
    public async Task Every_row_is_shown_before_it_is_stored_with_what_stands_before_and_after()
    {
        await Store(Fleet);
        var page = Open(("moved.csv", Moved));
        Say(page, "as-of := 2026-01-01");

        Assert.Equal(
            ["2 △ changed Microphone Microphone 1 Place: Hall 1 → Van", "3 = already there Microphone Microphone 2",
                "4 + new Ground plate Ground plate 4: device, place", "5 ▲ questioned Device Kind 'teapot': allowed are"],
            Rows(page).Select(Told).Select(r => r.Split(" are ")[0] + (r.Contains(" are ", StringComparison.Ordinal) ? " are" : "")));
        Assert.Equal(3, Live.Now.DeviceIds.Count()); // nothing is stored yet
    }

    [Fact]
    public async Task Rows_are_filtered_by_what_becomes_of_them_by_kind_and_by_words()
    {
        await Store(Fleet);
        var page = Open(("moved.csv", Moved));
        Say(page, "as-of := 2026-01-01");

        Chip(page, "△ 1 changed").Click();
        Assert.Single(Rows(page), r => r.TextContent.Contains("Van", StringComparison.Ordinal));
        Assert.Single(Rows(page));
        Assert.Equal("true", Chip(page, "△ 1 changed").GetAttribute("aria-pressed"));
        Chip(page, "+ 1 new").Click();
        Assert.Equal(2, Rows(page).Count);
        Chip(page, "1 Ground plate").Click();
        Assert.Contains("Ground plate 4", Rows(page).Single().TextContent, StringComparison.Ordinal);
        foreach (var on in new[] { "△ 1 changed", "+ 1 new", "1 Ground plate" }) Chip(page, on).Click();

        var find = page.FindComponents<MudTextField<string>>().Single(t => t.Instance.Label == "Find in rows");
        await page.InvokeAsync(() => find.Instance.ValueChanged.InvokeAsync("hall van"));
        Assert.Contains("Microphone 1", Rows(page).Single().TextContent, StringComparison.Ordinal);
        await page.InvokeAsync(() => find.Instance.ValueChanged.InvokeAsync("nowhere"));
        Assert.Contains("No row fits", page.Find(".plan").TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public void A_long_list_is_drawn_a_page_at_a_time_and_counted_whole()
    {
        var text = "Kind,Model,Serial\n" + string.Concat(Enumerable.Range(1, 3000)
            .Select(i => FormattableString.Invariant($"mic,A,{i}\n")));
        var page = Open(("long.csv", text));

        Assert.Contains("3000 of 3000 rows", page.Markup, StringComparison.Ordinal);
        Assert.Equal(25, Rows(page).Count);
        Assert.Equal(8, page.FindAll(".understood tbody tr").Count);
        page.Find("button[aria-label='Last page']").Click();
        Assert.Contains("Microphone 3000", Rows(page)[^1].TextContent, StringComparison.Ordinal);
        Assert.Equal(25, Rows(page).Count);
    }

    [Fact]
    public async Task The_meaning_of_a_column_is_changed_over_the_table_and_taken_back()
    {
        var page = Open(("list.csv", "Kind,Model,Serial,Owner\nmic,A,1,Hall 9\n"));
        Assert.Equal(["● by its header", "● by its header", "● by its header", "● by its header"], Known(page));
        Assert.Equal(["2", "mic", "A", "1", "Hall 9"], page.Find(".understood tbody tr").Children.Select(c => c.TextContent));

        var picker = page.FindComponents<MeaningPicker>()[3];
        await picker.InvokeAsync(() => picker.FindComponent<MudAutocomplete<string>>().Instance.ValueChanged.InvokeAsync("place"));
        page.WaitForAssertion(() => Assert.Equal("◆ said by the legend", Known(page)[3]));
        Assert.Equal("\"Owner\" = place", page.FindComponent<QuestionCards>().Instance.Given.Single());
        Assert.Contains("device, place", Rows(page).Single().TextContent, StringComparison.Ordinal);

        page.Find("button[aria-label='Take it back: what was said of Owner']").Click();
        page.WaitForAssertion(() => Assert.Equal("● by its header", Known(page)[3]));
        Assert.Empty(page.FindComponent<QuestionCards>().Instance.Given);
    }

    [Fact]
    public async Task Columns_that_nobody_understands_are_answered_by_one_press()
    {
        var page = Open(("list.csv", "Kind,Model,Serial,Zorp,Blick,Krumm\nmic,A,1,Hall 9,gross,ja so\n"));
        var question = page.FindAll(".question").Single();
        Assert.Contains("3 columns are not understood", question.TextContent, StringComparison.Ordinal);
        Assert.Equal(3, question.QuerySelectorAll("select").Length);

        var place = page.FindAll(".question select")[0].Children.First(o => o.TextContent == "Place").GetAttribute("value");
        await page.FindAll(".question select")[0].ChangeAsync(new() { Value = place });
        await page.FindAll(".question button").Single(b => b.TextContent.Contains("Keep the rest as notes", StringComparison.Ordinal))
            .ClickAsync(new());
        page.WaitForAssertion(() => Assert.Empty(page.FindAll(".question")));
        Assert.Equal(["\"Blick\" = noted", "\"Krumm\" = noted", "\"Zorp\" = place"],
            page.FindComponent<QuestionCards>().Instance.Given.Order(StringComparer.Ordinal));
        Assert.Contains("device, place, note", Rows(page).Single().TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Words_are_answered_together_as_far_as_they_are_chosen()
    {
        var page = Open(("list.csv", "Kind,Model,Serial,Status\nmic,A,1,grumpy\nmic,A,2,sleepy\n"));
        Assert.Empty(page.FindAll(".question button")); // nothing is chosen yet

        var away = page.FindAll(".question select")[0].Children.First(o => o.TextContent == "away").GetAttribute("value");
        await page.FindAll(".question select")[0].ChangeAsync(new() { Value = away });
        await page.FindAll(".question button").Single().ClickAsync(new());
        page.WaitForAssertion(() => Assert.Contains("sleepy", page.FindAll(".question").Single().TextContent, StringComparison.Ordinal));
        Assert.Equal(["word status \"grumpy\" := away"], page.FindComponent<QuestionCards>().Instance.Given);
    }

    [Fact]
    public async Task What_was_shown_is_stored_and_said_with_how_to_take_it_back()
    {
        var page = Open(("list.csv", Fleet));
        await StoreShown(page);

        page.WaitForAssertion(() => Assert.Contains("facts stored", page.Markup, StringComparison.Ordinal));
        Assert.Equal(3, Live.Now.DeviceIds.Count());
        Assert.Equal("import#taken-over", page.FindAll(".mud-alert a")[^1].GetAttribute("href"));
        await Meanwhile(); // the list of files follows
        page.WaitForAssertion(() => Assert.Contains("list.csv", page.Find("#taken-over").TextContent, StringComparison.Ordinal));
        Assert.Empty(page.FindAll(".plan"));
    }

    [Fact]
    public async Task Nothing_is_stored_where_the_register_changed_meanwhile_so_that_the_list_would_do_something_else()
    {
        await Store(Fleet);
        var page = Open(("moved.csv", "Serial,Location\n1,Van\n2,Van\n"));
        Say(page, "as-of := 2026-01-01");
        Assert.Contains("Hall 1 → Van", Words(Rows(page)[0].TextContent), StringComparison.Ordinal);
        await Meanwhile(Moves("1", "Bench", 1));
        var before = Live.Now.Count;

        await StoreShown(page);

        page.WaitForAssertion(() => Assert.Contains("Nothing was stored: the register changed meanwhile", Words(page.Markup),
            StringComparison.Ordinal));
        Assert.Equal(before, Live.Now.Count);
        Assert.Contains("newer: place Bench", Rows(page)[0].TextContent, StringComparison.Ordinal);

        await StoreShown(page);
        page.WaitForAssertion(() => Assert.Contains("facts stored", page.Markup, StringComparison.Ordinal));
        Assert.Equal(("Bench", "Van"), (Live.Now.Device(Id("microphone", "A", "1"))!.Place,
            Live.Now.Device(Id("microphone", "A", "2"))!.Place));
    }

    [Fact]
    public async Task What_others_said_of_other_things_meanwhile_does_not_keep_a_list_from_being_stored()
    {
        await Store(Fleet);
        var page = Open(("moved.csv", "Serial,Location\n1,Van\n"));
        Say(page, "as-of := 2026-01-01");
        await Meanwhile(Moves("2", "Bench", 1));

        await StoreShown(page);

        page.WaitForAssertion(() => Assert.Contains("facts stored", page.Markup, StringComparison.Ordinal));
        Assert.Equal(("Van", "Bench"), (Live.Now.Device(Id("microphone", "A", "1"))!.Place,
            Live.Now.Device(Id("microphone", "A", "2"))!.Place));
    }

    [Fact]
    public async Task Answers_are_kept_with_an_import_and_offered_to_the_next_list_of_the_same_columns()
    {
        const string First = "Gattung,Nr,Fach\nmicrophone,A1,7\n";
        var page = Open(("own.csv", First), ("own.csv.mapping",
            "# of the cupboard\nGattung = kind\nNr = serial\nFach = place\nas-of := 2026-01-02\n"));
        await StoreShown(page);
        page.WaitForAssertion(() => Assert.Contains("facts stored", page.Markup, StringComparison.Ordinal));
        var kept = Live.Now.TakenImports().Single().Accepted.Legend!;
        Assert.Equal(("own.csv", "# of the cupboard\nGattung = kind\nNr = serial\nFach = place\nas-of := 2026-01-02"),
            (kept.Name, kept.Text));

        await Drop(page, ("next.csv", "Fach,Gattung,Nr\n8,microphone,A2\n9,microphone,A3\n"));
        Assert.Contains("The list own.csv of 2026-08-03 had the same columns", Words(page.Markup), StringComparison.Ordinal);
        Button(page, "Use its answers").Click();
        page.WaitForAssertion(() => Assert.Contains("2 rows: 2 new", page.Markup, StringComparison.Ordinal));
        Assert.Equal(["Gattung = kind", "Nr = serial", "Fach = place"], page.FindComponent<QuestionCards>().Instance.Given);

        Button(page, "Use them no more").Click();
        page.WaitForAssertion(() => Assert.Contains("had the same columns", page.Markup, StringComparison.Ordinal));
        await Drop(page, ("other.csv", "Gattung,Nr,Regal\nmicrophone,A2,8\n"));
        Assert.DoesNotContain(page.FindComponents<LegendSection>(), s => s.Instance is { File: "other.csv", Offer: not null });
    }

    [Fact]
    public async Task Answers_of_an_import_that_was_taken_back_are_not_offered()
    {
        await Store("Gattung,Nr\nmicrophone,A1\n", "Gattung = kind\nNr = serial");
        var import = Live.Now.TakenImports().Single();
        Assert.NotNull(KeptLegend.Fitting(Live.Now, new MemoryStream("Nr,Gattung\nA2,microphone\n"u8.ToArray()), "b.csv"));
        await Live.Submit(r => ImportTakeBack.TakeBack(r, Desk.Say("Ada"), import.Fact.Id.ToString(), null), "test");

        Assert.Null(KeptLegend.Fitting(Live.Now, new MemoryStream("Nr,Gattung\nA2,microphone\n"u8.ToArray()), "b.csv"));
    }

    [Fact]
    public async Task Files_are_named_with_their_size_and_taken_out_again()
    {
        var page = Open(("a.csv", "Kind,Model,Serial\nmic,A,1\n"), ("b.csv", "Kind,Model,Serial\nmic,A,2\n"));
        Assert.Equal(["a.csv 26 bytes Take out", "b.csv 26 bytes Take out"],
            page.FindAll("[aria-label='Files'] .file-row").Select(f => Words(f.TextContent)));

        page.Find("button[aria-label='Take out a.csv']").Click();
        page.WaitForAssertion(() => Assert.Equal(["b.csv"], page.FindAll("h2").Select(h => h.TextContent)
            .Where(t => t.EndsWith(".csv", StringComparison.Ordinal))));
        await StoreShown(page);
        page.WaitForAssertion(() => Assert.Contains("facts stored", page.Markup, StringComparison.Ordinal));
        Assert.Equal([Id("microphone", "A", "2")], Live.Now.DeviceIds);
    }

    [Fact]
    public void Work_says_how_far_how_fast_and_how_long_it_still_takes()
    {
        Assert.Equal("Reading the files …", new ImportWork(false, default, TimeSpan.Zero).InWords);
        // 50,000 rows in 2 s: 25,000 a second; 150,000 are left, 6 s.
        Assert.Equal("50000 of 200000 rows worked out, 25000 a second, 6 s left …",
            new ImportWork(false, new(50_000, 200_000), TimeSpan.FromSeconds(2)).InWords);
        Assert.Equal("50000 of 200000 rows worked out …", new ImportWork(false, new(50_000, 200_000), TimeSpan.FromSeconds(0.1)).InWords);
    }

    private static Fact Moves(string serial, string place, int counter) => FactText.WriteDerived(
        new(Occurred.On(new(2026, 8, 1)), "ada", "desk", counter), new DeviceMoved(place), [Subject.Device(Id("microphone", "A", serial))]);

    private async Task Store(string text, string legend = "")
    {
        var importing = new Importing(Live.Now, Desk.Today);
        importing.Take(
            new MemoryStream(Encoding.UTF8.GetBytes(text)), "list.csv", ImportMapping.Read(new StringReader(legend), "legend"), null,
            Xunit.TestContext.Current.CancellationToken, legend: ("list.csv", legend));
        await importing.Store(Live, "Ada", TimeProvider.System, Xunit.TestContext.Current.CancellationToken);
    }

    private IRenderedComponent<ImportPage> Open(params (string Name, string Text)[] files)
    {
        Render<MudPopoverProvider>();
        var page = Render<ImportPage>();
        Drop(page, files).GetAwaiter().GetResult();
        return page;
    }

    private static Task Drop(IRenderedComponent<ImportPage> page, params (string Name, string Text)[] files)
    {
        var input = page.FindComponent<InputFile>();
        input.UploadFiles([.. files.Select(f => InputFileContent.CreateFromText(f.Text, f.Name))]);
        page.WaitForAssertion(() => Assert.NotEmpty(page.FindAll(".store-bar")));
        return Task.CompletedTask;
    }

    private static void Say(IRenderedComponent<ImportPage> page, string rule)
    {
        var section = page.FindComponent<LegendSection>();
        section.InvokeAsync(() => section.Instance.OnWritten.InvokeAsync(rule)).GetAwaiter().GetResult();
        page.WaitForAssertion(() => Assert.NotEmpty(page.FindAll(".store-bar")));
    }

    private static Task StoreShown(IRenderedComponent<ImportPage> page) =>
        page.InvokeAsync(() => page.Find(".store-bar button").ClickAsync());

    private static IReadOnlyList<IElement> Rows(IRenderedComponent<ImportPage> page) => page.FindAll(".plan tbody tr");

    private static string Told(IElement row) => Words(Tag().Replace(row.InnerHtml, " "));

    [GeneratedRegex("<[^>]*>")]
    private static partial Regex Tag();

    private static IElement Chip(IRenderedComponent<ImportPage> page, string text) =>
        page.FindAll(".filter-chip").Single(c => Words(c.TextContent) == text);

    private static IElement Button(IRenderedComponent<ImportPage> page, string text) =>
        page.FindAll("button").Single(b => b.TextContent.Trim() == text);

    private static IReadOnlyList<string> Known(IRenderedComponent<ImportPage> page) =>
        [.. page.FindAll(".understood-known").Select(k => Words(k.TextContent))];

    private static string Words(string text) => string.Join(' ', text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
}
