using Bunit;
using Bunit.TestDoubles;
using MicRegister.Server.Pages.Parts;
using Microsoft.AspNetCore.Components;
using Microsoft.Extensions.DependencyInjection;
using MudBlazor;

namespace MicRegister.Server.Tests.Pages.Parts;

/// <summary>What was typed in a dialog is not thrown away without a question, and its key does what it does once.</summary>
public sealed class AskTests : PageContext
{
    private const string Warning = "What you typed is not stored.";

    private readonly List<bool> _open = [];
    private IRenderedComponent<MudDialogProvider> _screen = null!;

    [Fact]
    public void Where_nothing_was_typed_it_is_left_at_once()
    {
        Ask(() => Task.FromResult(true));

        _screen.Find("[data-cancel]").Click(); // Escape presses this key

        _screen.WaitForAssertion(() => Assert.Empty(_screen.FindAll(".mud-dialog")));
        Assert.Equal([false], _open);
    }

    [Fact]
    public void Where_something_was_typed_it_asks_first()
    {
        Ask(() => Task.FromResult(true));
        _screen.Find("input").Change("B 12");

        _screen.Find("[data-cancel]").Click();
        Assert.Contains(Warning, _screen.Markup, StringComparison.Ordinal);
        Assert.Equal("Leave it all the same", _screen.Find("[data-cancel]").TextContent.Trim());
        Assert.Empty(_open);

        _screen.Find("[data-cancel]").Click();
        _screen.WaitForAssertion(() => Assert.Empty(_screen.FindAll(".mud-dialog")));
        Assert.Equal([false], _open);
    }

    // Escape takes no field its focus: what stands in it was told letter by letter only.
    [Fact]
    public void A_letter_that_was_typed_counts_before_its_field_was_left()
    {
        Ask(() => Task.FromResult(true));
        _screen.Find("input").Input("B");

        _screen.Find("[data-cancel]").Click();

        Assert.Contains(Warning, _screen.Markup, StringComparison.Ordinal);
        Assert.Empty(_open);
    }

    [Fact]
    public void A_click_beside_it_closes_nothing_past_that_question()
    {
        Ask(() => Task.FromResult(true));
        _screen.Find("input").Change("B 12");

        _screen.Find(".mud-overlay").Click();

        Assert.Single(_screen.FindAll(".mud-dialog"));
        Assert.Empty(_open);
    }

    [Fact]
    public async Task What_was_done_closes_it_and_what_was_not_leaves_it_open()
    {
        var isDone = false;
        Ask(() => Task.FromResult(isDone));
        _screen.Find("input").Change("B 12");

        await Key().ClickAsync();
        Assert.Single(_screen.FindAll(".mud-dialog"));
        Assert.Equal("B 12", _screen.Find("input").GetAttribute("value"));
        Assert.Empty(_open);

        isDone = true;
        await Key().ClickAsync();
        _screen.WaitForAssertion(() => Assert.Empty(_screen.FindAll(".mud-dialog")));
        Assert.Equal([false], _open);
    }

    [Fact]
    public async Task A_key_that_is_still_at_work_is_not_pressed_twice()
    {
        var (pressed, done) = (0, new TaskCompletionSource<bool>());
        Ask(() =>
        {
            pressed++;
            return done.Task;
        });

        var press = Press(); // as it was drawn before the first
        var first = _screen.InvokeAsync(press);
        var second = _screen.InvokeAsync(press);
        Assert.Equal(1, pressed);
        Assert.True(Key().HasAttribute("disabled"));

        await _screen.InvokeAsync(() => done.SetResult(false));
        await Task.WhenAll(first, second);
        Assert.False(Key().HasAttribute("disabled"));
    }

    // What the fields themselves look up may take a while: a second press comes meanwhile.
    [Fact]
    public async Task A_key_whose_fields_are_still_looked_at_is_not_pressed_twice()
    {
        var (pressed, looked) = (0, new TaskCompletionSource());
        async Task<string?> Look(string? text)
        {
            await looked.Task;
            return null;
        }
        Ask(
            () => Task.FromResult(pressed++ > 5),
            builder =>
            {
                builder.OpenComponent<MudTextField<string>>(0);
                builder.AddAttribute(1, "Validation", (Func<string?, Task<string?>>)Look);
                builder.CloseComponent();
            });

        var press = Press();
        var first = _screen.InvokeAsync(press);
        var second = _screen.InvokeAsync(press);
        await _screen.InvokeAsync(looked.SetResult);
        await Task.WhenAll(first, second);

        Assert.Equal(1, pressed);
    }

    [Fact]
    public void Going_elsewhere_asks_first_where_something_was_typed()
    {
        var navigation = (BunitNavigationManager)Services.GetRequiredService<NavigationManager>();
        Ask(() => Task.FromResult(true));
        _screen.Find("input").Change("B 12");

        navigation.NavigateTo("fleet");

        Assert.Equal(NavigationState.Prevented, navigation.History.First().State);
        _screen.WaitForAssertion(() => Assert.Contains(Warning, _screen.Markup, StringComparison.Ordinal));
        Assert.Single(_screen.FindAll(".mud-dialog"));
    }

    [Fact]
    public void Going_elsewhere_asks_nothing_where_nothing_was_typed()
    {
        var navigation = (BunitNavigationManager)Services.GetRequiredService<NavigationManager>();
        Ask(() => Task.FromResult(true));

        navigation.NavigateTo("fleet");

        Assert.Equal(NavigationState.Succeeded, navigation.History.First().State);
    }

    [Fact]
    public void Until_enough_is_said_its_key_is_shut()
    {
        Ask(() => Task.FromResult(true), canSay: false);

        Assert.True(Key().HasAttribute("disabled"));
        Assert.Equal("Swap the microphone", _screen.Find("h2").TextContent);
    }

    // It is said beside what was typed, not only in a notice that goes away.
    [Fact]
    public void Why_it_cannot_be_done_stands_in_it()
    {
        Ask(() => Task.FromResult(false), problem: "Reason is missing.");

        Assert.Equal("Reason is missing.", _screen.Find(".mud-dialog [role=alert]").TextContent.Trim());
    }

    [Fact]
    public async Task A_field_that_is_wrong_keeps_it_open_says_so_and_gets_the_focus()
    {
        var pressed = 0;
        Ask(() => Task.FromResult(++pressed > 0), builder =>
        {
            builder.OpenComponent<NumberText>(0);
            builder.AddAttribute(1, nameof(NumberText.Label), "Gap");
            builder.CloseComponent();
        });
        await _screen.Find("input").ChangeAsync("wide");

        await Key().ClickAsync();

        Assert.Equal(0, pressed);
        Assert.Equal("true", _screen.Find("input").GetAttribute("aria-invalid"));
        Assert.Contains("'wide' is no number.", _screen.Find(".mud-dialog").TextContent, StringComparison.Ordinal);
        Assert.Single(JSInterop.Invocations["desk.toFault"]);

        await _screen.Find("input").ChangeAsync("0,2");
        await Key().ClickAsync();
        Assert.Equal(1, pressed);
        Assert.Single(JSInterop.Invocations["desk.toFault"]);
    }

    [Fact]
    public async Task A_field_that_has_to_be_filled_keeps_it_open_until_it_is()
    {
        var pressed = 0;
        Ask(() => Task.FromResult(++pressed > 0), builder =>
        {
            builder.OpenComponent<Field>(0);
            builder.AddAttribute(1, nameof(Field.Label), "Why");
            builder.AddAttribute(2, nameof(Field.Required), true);
            builder.CloseComponent();
        });

        await Key().ClickAsync();
        Assert.Equal(0, pressed);
        Assert.Contains("It is needed.", _screen.Find(".mud-dialog").TextContent, StringComparison.Ordinal);

        await _screen.Find("input").ChangeAsync("dented");
        await Key().ClickAsync();
        Assert.Equal(1, pressed);
    }

    [Fact]
    public async Task The_key_that_opened_it_gets_the_focus_back_once()
    {
        Ask(() => Task.FromResult(true));
        Assert.Empty(JSInterop.Invocations["desk.leaveDialog"]);

        await Key().ClickAsync();

        _screen.WaitForAssertion(() => Assert.Single(JSInterop.Invocations["desk.leaveDialog"]));
    }

    [Fact]
    public async Task Another_key_beside_it_ends_it_without_asking_its_fields()
    {
        var cleared = 0;
        var ask = Ask(() => Task.FromResult(false), builder =>
        {
            builder.OpenComponent<Field>(0);
            builder.AddAttribute(1, nameof(Field.Label), "Value");
            builder.AddAttribute(2, nameof(Field.Required), true);
            builder.CloseComponent();
        });

        await ask.InvokeAsync(() => ask.Instance.End(() => Task.FromResult(++cleared > 1)));
        Assert.Empty(_open);
        await ask.InvokeAsync(() => ask.Instance.End(() => Task.FromResult(++cleared > 1)));

        Assert.Equal(2, cleared);
        Assert.Equal([false], _open);
    }

    private Func<Task> Press()
    {
        var click = _screen.FindComponents<MudButton>()[^1].Instance.OnClick;
        return () => click.InvokeAsync();
    }

    private AngleSharp.Dom.IElement Key() => _screen.FindAll(".mud-dialog-actions button")[^1];

    private IRenderedComponent<Ask> Ask(Func<Task<bool>> yes, RenderFragment? fields = null, bool canSay = true, string? problem = null)
    {
        _screen = Screen();
        var ask = Render<Ask>(p => p
            .Add(a => a.Open, true).Add(a => a.OpenChanged, _open.Add).Add(a => a.Title, "Swap the microphone").Add(a => a.OnYes, yes)
                .Add(a => a.CanSay, canSay).Add(a => a.Problem, problem)
            .Add(a => a.ChildContent, fields ?? (builder =>
            {
                builder.OpenComponent<Field>(0);
                builder.AddAttribute(1, nameof(Field.Label), "Why");
                builder.CloseComponent();
            })));
        _screen.WaitForElement(".mud-dialog");
        return ask;
    }
}
