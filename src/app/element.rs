//! The elements of the page, all of one type.
//!
//! `view!` calls these one by one. Leptos' own elements carry all that is in them in their types, and each then has
//! code of its own to be drawn by; here that code is in the page once.

use gloo::events::EventListener;
use leptos::attr::Attribute;
use leptos::attr::any_attribute::AnyAttribute;
use leptos::ev::{EventDescriptor, Targeted};
use leptos::html::ElementType;
use leptos::prelude::*;
use leptos::tachys::html::node_ref::NodeRefContainer;
use leptos::tachys::hydration::Cursor;
use leptos::tachys::renderer::{Rndr, types};
use leptos::tachys::view::add_attr::AddAnyAttr;
use leptos::tachys::view::any_view::AnyViewState;
use leptos::tachys::view::iterators::StaticVec;
use leptos::tachys::view::{Position, PositionState};
use send_wrapper::SendWrapper;
use std::borrow::Cow;
use std::sync::Arc;
use wasm_bindgen::JsCast;
use web_sys::Event;

/// What several views side by side are.
pub fn several(views: impl Into<Vec<AnyView>>) -> StaticVec<AnyView> {
    StaticVec::from(views.into())
}

/// An element being put together.
pub struct El(Box<Parts>);

struct Parts {
    /// Where in the code it is written.
    site: u32,
    tag: &'static str,
    namespace: Option<&'static str>,
    settings: Vec<Setting>,
    calls: Vec<(&'static str, Call)>,
    children: Vec<Child>,
    place: Option<Place>,
}

type Call = Box<dyn FnMut(Event)>;
type Place = Box<dyn FnOnce(&types::Element)>;

enum Child {
    El(El),
    View(AnyView),
}

/// What is set on an element: nothing where it is not there, and an empty text for a plain yes.
type Held = Option<Cow<'static, str>>;

struct Setting {
    kind: Kind,
    name: &'static str,
    value: Value,
}

#[derive(Clone, Copy)]
enum Kind {
    Attribute,
    /// One class, beside those of an attribute that stays.
    Class,
    /// One property of style.
    Style,
    /// What is typed in.
    Typed,
    /// Ticked or not.
    Ticked,
}

/// A value that stays, or one that follows its signals.
pub enum Value {
    Fixed(Held),
    Live(Box<dyn Fn() -> Held>),
}

impl<T: Settable> From<T> for Value {
    fn from(value: T) -> Self {
        Value::Fixed(value.held())
    }
}

impl<T: Settable + 'static> From<Arc<dyn Fn() -> T + Send + Sync>> for Value {
    fn from(live: Arc<dyn Fn() -> T + Send + Sync>) -> Self {
        Value::Live(Box::new(move || live().held()))
    }
}

/// What an attribute can be set to.
pub trait Settable {
    fn held(self) -> Held;
}

impl Settable for &'static str {
    fn held(self) -> Held {
        Some(self.into())
    }
}

impl Settable for String {
    fn held(self) -> Held {
        Some(self.into())
    }
}

impl Settable for bool {
    fn held(self) -> Held {
        self.then_some("".into())
    }
}

impl Settable for Option<&'static str> {
    fn held(self) -> Held {
        self.map(Cow::from)
    }
}

impl El {
    /// An element that is written.
    pub fn html(tag: &'static str) -> Self {
        Self::new(tag, None)
    }

    /// An element that is drawn.
    pub fn svg(tag: &'static str) -> Self {
        Self::new(tag, Some("http://www.w3.org/2000/svg"))
    }

    #[inline(never)]
    fn new(tag: &'static str, namespace: Option<&'static str>) -> Self {
        Self(Box::new(Parts {
            site: 0,
            tag,
            namespace,
            settings: Vec::new(),
            calls: Vec::new(),
            children: Vec::new(),
            place: None,
        }))
    }

    #[inline(never)]
    fn with(mut self, kind: Kind, name: &'static str, value: Value) -> Self {
        self.0.settings.push(Setting { kind, name, value });
        self
    }

    #[inline(never)]
    pub fn set(self, name: &'static str, value: impl Into<Value>) -> Self {
        self.with(Kind::Attribute, name, value.into())
    }

    /// One class that is there or not.
    pub fn class(self, name: &'static str, there: impl Into<Value>) -> Self {
        self.with(Kind::Class, name, there.into())
    }

    /// One property of style.
    pub fn style(self, name: &'static str, value: impl Into<Value>) -> Self {
        self.with(Kind::Style, name, value.into())
    }

    /// What is typed in it.
    pub fn typed(self, text: impl Into<Value>) -> Self {
        self.with(Kind::Typed, "value", text.into())
    }

    /// Whether it is ticked.
    pub fn ticked(self, ticked: impl Into<Value>) -> Self {
        self.with(Kind::Ticked, "checked", ticked.into())
    }

    /// Calls `call` whenever this happens to it.
    pub fn on<E: EventDescriptor>(self, _: E, name: &'static str, mut call: impl FnMut(E::EventType) + 'static) -> Self
    where
        E::EventType: JsCast,
    {
        self.calls(name, Box::new(move |event| call(event.unchecked_into())))
    }

    /// The same, with the element it happened to.
    pub fn on_target<E: EventDescriptor, T: ElementType>(
        self,
        event: E,
        name: &'static str,
        mut call: impl FnMut(Targeted<E::EventType, T::Output>) + 'static,
    ) -> Self
    where
        E::EventType: JsCast,
    {
        self.on(event, name, move |event| call(Targeted::from(event)))
    }

    #[inline(never)]
    fn calls(mut self, name: &'static str, call: Call) -> Self {
        self.0.calls.push((name, call));
        self
    }

    /// Tells where the element is, once it is there and whenever it is drawn over.
    pub fn place<T: ElementType>(mut self, place: impl NodeRefContainer<T>) -> Self {
        self.0.place = Some(Box::new(move |element| place.load(element)));
        self
    }

    #[inline(never)]
    pub fn el(mut self, child: El) -> Self {
        self.0.children.push(Child::El(child));
        self
    }

    pub fn child(self, child: impl IntoAny) -> Self {
        self.view(child.into_any())
    }

    #[inline(never)]
    fn view(mut self, child: AnyView) -> Self {
        self.0.children.push(Child::View(child));
        self
    }

    /// The whole of it. What another `site` drew at its place is replaced by it, what the same one drew is changed.
    #[inline(never)]
    pub fn whole(mut self, site: u32) -> Whole {
        self.0.site = site;
        Whole(SendWrapper::new(self))
    }

    fn build(self) -> Placed {
        let parts = *self.0;
        let element = Rndr::create_element(parts.tag, parts.namespace);
        let settings = parts.settings.into_iter().map(|setting| setting.build(&element, None));
        let settings = settings.collect();
        let mut children: Vec<PlacedChild> = parts.children.into_iter().map(Child::build).collect();
        children
            .iter_mut()
            .for_each(|child| child.mounted().mount(&element, None));
        if let Some(place) = parts.place {
            place(&element);
        }
        Placed {
            site: parts.site,
            settings,
            calls: listen(&element, parts.calls),
            children,
            element,
        }
    }

    fn rebuild(self, placed: &mut Placed) {
        if self.0.site != placed.site {
            let mut new = self.build();
            placed.insert_before_this(&mut new);
            placed.unmount();
            *placed = new;
            return;
        }
        // The same site set the same things, and put in the same children.
        for (setting, old) in self.0.settings.into_iter().zip(&mut placed.settings) {
            *old = setting.build(&placed.element, old.take_value());
        }
        placed.calls = listen(&placed.element, self.0.calls);
        if let Some(place) = self.0.place {
            place(&placed.element);
        }
        for (child, old) in self.0.children.into_iter().zip(&mut placed.children) {
            match (child, old) {
                (Child::El(child), PlacedChild::El(old)) => child.rebuild(old),
                (Child::View(child), PlacedChild::View(old)) => child.rebuild(old),
                _ => {}
            }
        }
    }
}

/// Listens for what may happen, with the owner of the view that listens.
fn listen(element: &types::Element, calls: Vec<(&'static str, Call)>) -> Vec<EventListener> {
    let one = |(name, mut call): (&'static str, Call)| {
        let owner = Owner::current().unwrap_or_default();
        EventListener::new(element, name, move |event| owner.with(|| call(event.clone())))
    };
    calls.into_iter().map(one).collect()
}

/// A setting that is made; a live one goes on following.
enum Made {
    Fixed(Held),
    Live(RenderEffect<Held>),
}

impl Made {
    fn take_value(&mut self) -> Option<Held> {
        match self {
            Made::Fixed(held) => Some(held.take()),
            Made::Live(effect) => effect.take_value(),
        }
    }
}

impl Setting {
    /// Sets it, where it is not what it `was`.
    fn build(self, element: &types::Element, was: Option<Held>) -> Made {
        let Setting { kind, name, value } = self;
        match value {
            Value::Fixed(now) => {
                if now != was.unwrap_or_default() {
                    kind.set(element, name, &now);
                }
                Made::Fixed(now)
            }
            Value::Live(live) => {
                let element = element.clone();
                let follow = move |was: Option<Held>| {
                    let now = live();
                    if now != was.unwrap_or_default() {
                        kind.set(&element, name, &now);
                    }
                    now
                };
                Made::Live(RenderEffect::new_with_value(follow, was))
            }
        }
    }
}

impl Kind {
    fn set(self, element: &types::Element, name: &str, held: &Held) {
        let text = held.as_deref().unwrap_or_default();
        match (self, held.is_some()) {
            (Kind::Attribute, true) => Rndr::set_attribute(element, name, text),
            (Kind::Attribute, false) => Rndr::remove_attribute(element, name),
            (Kind::Class, true) => Rndr::add_class(&Rndr::class_list(element), name),
            (Kind::Class, false) => Rndr::remove_class(&Rndr::class_list(element), name),
            (Kind::Style, _) => Rndr::set_css_property(&Rndr::style(element), name, text),
            (Kind::Typed, _) => Rndr::set_property(element, name, &text.into()),
            (Kind::Ticked, ticked) => Rndr::set_property(element, name, &ticked.into()),
        }
    }
}

impl Child {
    fn build(self) -> PlacedChild {
        match self {
            Child::El(child) => PlacedChild::El(child.build()),
            Child::View(child) => PlacedChild::View(child.build()),
        }
    }
}

/// An element that is there.
pub struct Placed {
    site: u32,
    element: types::Element,
    settings: Vec<Made>,
    calls: Vec<EventListener>,
    children: Vec<PlacedChild>,
}

enum PlacedChild {
    El(Placed),
    View(AnyViewState),
}

impl PlacedChild {
    fn mounted(&mut self) -> &mut dyn Mountable {
        match self {
            PlacedChild::El(child) => child,
            PlacedChild::View(child) => child,
        }
    }
}

impl Mountable for Placed {
    fn unmount(&mut self) {
        self.element.unmount();
    }

    fn mount(&mut self, parent: &types::Element, before: Option<&types::Node>) {
        self.element.mount(parent, before);
    }

    fn insert_before_this(&self, child: &mut dyn Mountable) -> bool {
        self.element.insert_before_this(child)
    }

    fn elements(&self) -> Vec<types::Element> {
        vec![self.element.clone()]
    }
}

/// An element as Leptos knows views.
pub struct Whole(SendWrapper<El>);

impl Render for Whole {
    type State = Placed;

    fn build(self) -> Placed {
        self.0.take().build()
    }

    fn rebuild(self, placed: &mut Placed) {
        self.0.take().rebuild(placed);
    }
}

/// Nothing is added to a view from outside.
impl AddAnyAttr for Whole {
    type Output<New: Attribute> = Self;

    fn add_any_attr<New: Attribute>(self, _: New) -> Self {
        self
    }
}

/// What Leptos asks of a view that a server might draw; here none does.
impl RenderHtml for Whole {
    type AsyncOutput = Self;
    type Owned = Self;

    const MIN_LENGTH: usize = 0;

    fn dry_resolve(&mut self) {}

    async fn resolve(self) -> Self {
        self
    }

    fn to_html_with_buf(self, _: &mut String, _: &mut Position, _: bool, _: bool, _: Vec<AnyAttribute>) {}

    fn hydrate<const FROM_SERVER: bool>(self, _: &Cursor, _: &PositionState) -> Placed {
        self.build()
    }

    fn into_owned(self) -> Self {
        self
    }
}
