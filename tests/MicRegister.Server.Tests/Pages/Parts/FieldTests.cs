using Bunit;
using MicRegister.Server.Pages.Parts;
using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Rendering;

namespace MicRegister.Server.Tests.Pages.Parts;

/// <summary>What is typed in a line of text stands, whatever the page does with it meanwhile.</summary>
public sealed class FieldTests : PageContext
{
    [Fact]
    public async Task Letters_typed_while_the_page_still_works_on_the_first_are_kept()
    {
        var page = Render<SlowPage>();
        var first = page.Find("input").InputAsync("a"); // ends when the page has taken it
        Assert.Equal("a", Text(page)); // drawn anew with the value from before, null

        var second = page.Find("input").InputAsync("ab");
        await page.InvokeAsync(() => page.Instance.Turns[0].SetResult());
        page.WaitForAssertion(() => Assert.Equal("a", page.Instance.Value));
        Assert.Equal("ab", Text(page)); // what the page took is older than what stands

        await page.InvokeAsync(() => page.Instance.Turns[1].SetResult());
        page.WaitForAssertion(() => Assert.Equal("ab", page.Instance.Value));
        await Task.WhenAll(first, second);
        Assert.Equal("ab", Text(page));
    }

    [Fact]
    public void A_value_that_is_merely_handed_back_replaces_nothing_and_one_that_the_page_changed_does()
    {
        var field = Render<Field>(p => p.Add(f => f.Label, "Remark").Add(f => f.Value, "old"));
        field.Find("input").Change("typed");

        field.Render(p => p.Add(f => f.Value, "old"));
        Assert.Equal("typed", Text(field));
        field.Render(p => p.Add(f => f.Value, "put right"));
        Assert.Equal("put right", Text(field));
        field.Render(p => p.Add(f => f.Value, null));
        Assert.Equal("", Text(field));
    }

    [Fact]
    public void What_was_typed_before_can_be_set_again_by_the_page_later()
    {
        var told = new List<string?>();
        var field = Render<Field>(p => p.Add(f => f.Label, "Remark").Add(f => f.ValueChanged, told.Add));
        foreach (var text in new[] { "first", "second" })
        {
            field.Find("input").Change(text);
            field.Render(p => p.Add(f => f.Value, text));
        }

        field.Render(p => p.Add(f => f.Value, "first"));

        Assert.Equal(["first", "second"], told);
        Assert.Equal("first", Text(field));
    }

    [Fact]
    public void What_is_required_is_said_at_the_input_itself_and_its_label_names_it()
    {
        var field = Render<Field>(p => p.Add(f => f.Label, "Reason").Add(f => f.Required, true).AddUnmatched("autocomplete", "off"));
        var input = field.Find("input");

        Assert.True(input.HasAttribute("required"));
        Assert.Equal("off", input.GetAttribute("autocomplete"));
        Assert.Equal("Reason", field.Find($"label[for='{input.Id}']").TextContent.Trim().TrimEnd('*'));
        field.Render(p => p.Add(f => f.Required, false));
        Assert.False(field.Find("input").HasAttribute("required"));
    }

    [Fact]
    public void What_is_wrong_is_told_at_the_field()
    {
        var field = Render<Field>(p => p.Add(f => f.Label, "Zone").Add(f => f.Value, "Nowhere")
            .Add(f => f.Problem, "There is no zone Nowhere."));
        var input = field.Find("input");

        Assert.Equal("true", input.GetAttribute("aria-invalid"));
        Assert.Contains("There is no zone Nowhere.", field.Find("#" + input.GetAttribute("aria-describedby")!.Split(' ')[0]).TextContent,
            StringComparison.Ordinal);
        field.Render(p => p.Add(f => f.Problem, null));
        Assert.NotEqual("true", field.Find("input").GetAttribute("aria-invalid"));
    }

    private static string Text(IRenderedComponent<IComponent> page) => page.Find("input").GetAttribute("value") ?? "";

    /// <summary>A page that works on each letter before it takes it.</summary>
    private sealed class SlowPage : ComponentBase
    {
        public string? Value { get; private set; }

        public List<TaskCompletionSource> Turns { get; } = [];

        protected override void BuildRenderTree(RenderTreeBuilder builder)
        {
            builder.OpenComponent<Field>(0);
            builder.AddAttribute(1, nameof(Field.Label), "Words");
            builder.AddAttribute(2, nameof(Field.Immediate), true);
            builder.AddAttribute(3, nameof(Field.Value), Value);
            builder.AddAttribute(4, nameof(Field.ValueChanged), EventCallback.Factory.Create<string?>(this, Take));
            builder.CloseComponent();
        }

        private async Task Take(string? text)
        {
            Turns.Add(new());
            await Turns[^1].Task;
            Value = text;
        }
    }
}
